import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { matchLine, parseTemplate } from '#core/measure/line-template'

function match(template: string, line: string) {
  const parsed = parseTemplate(template)
  if (!parsed.ok) throw new Error(parsed.why)
  const found = matchLine(parsed.template, line)
  return found?.map((v) => (v.name === null ? v.text : `${v.name}:${v.text}`)) ?? null
}

const shapes: readonly (readonly [string, string, readonly string[] | null])[] = [
  ['T={tempC}', 'T=71.2', ['71.2']],
  ['T={tempC}', '  T= 71.2 ', ['71.2']],
  ['T={tempC}', '=71.2', null],
  ['T={tempC}', 'T=', ['']],
  ['{tempC} C', '71.2 C', ['71.2']],
  ['{tempC} C', '71.2', null],
  ['{tempC}', '71.2', ['71.2']],
  ['{name};{tempF};{skip}', 'wren;160.1;ok', ['wren:160.1']],
  ['{name}={tempC},{name}={tempC}', 'wren=70.1,heron=64', ['wren:70.1', 'heron:64']],
  ['{tempC};{tempC}', '70.1;64', ['70.1', '64']],
  ['T1={tempC} T2={tempC} ', 'T1=70.1 T2=64', ['70.1', '64']],
  ['{skip},{skip},{tempC},', '1,2,70,', ['70']],
  ['{skip},{tempC}', '70', null],
  // What was trimmed off the line's end can't be found in front of the field.
  ['A;{tempC}; ', 'A;', null],
]

test.each(shapes)('template %s on line "%s" finds %j', (template, line, found) => {
  expect(match(template, line)).toEqual(found)
})

test.each(['', 'T=', '{temp}', '{tempC', 'tempC}', '{tempC}{tempF}', '{name}'])(
  'template "%s" is refused with a sentence',
  (template) => {
    expect(parseTemplate(template)).toMatchObject({ ok: false, why: expect.stringMatching(/.{20,}/) })
  },
)

test('a brace that is open, or closed only, is told as such', () => {
  const why = expect.stringContaining('a brace is not closed')
  expect(parseTemplate('T={tempC')).toEqual({ ok: false, why })
  expect(parseTemplate('{tempC')).toEqual({ ok: false, why })
  expect(parseTemplate('tempC}')).toEqual({ ok: false, why })
})

test('no template and no line make matching run away or throw', () => {
  const piece = fc.constantFrom('{skip}', '{tempC}', 'a', 'aa', ' ', ',', '{name}')
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), fc.string({ maxLength: 1024 }), (pieces, line) => {
      const parsed = parseTemplate(pieces.join(''))
      const found = parsed.ok ? matchLine(parsed.template, line) : null
      expect((found ?? []).every((v) => line.includes(v.text))).toBe(true)
    }),
  )
})

test('values put into a template are found again', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -20, max: 110, noNaN: true }), { minLength: 1, maxLength: 5 }),
      (temps) => {
        const template = temps.map((_, i) => `T${i}={tempC}`).join(' ')
        const line = temps.map((t, i) => `T${i}=${t.toFixed(2)}`).join(' ')
        expect(match(template, line)).toEqual(temps.map((t) => t.toFixed(2)))
      },
    ),
  )
})

import { describe, expect, test } from 'vitest'
import { decodeTrace } from '#core/wire/trace-file'

const T = (s: number) => new Date(Date.UTC(2026, 2, 12, 8, 0, s)).toISOString()
const read = (text: string) => {
  const decoded = decodeTrace(text, ['mordant', 'dye'])
  if (!decoded.ok) throw new Error(decoded.why)
  return decoded.trace
}
const why = (text: string) => {
  const decoded = decodeTrace(text, ['mordant', 'dye'])
  return decoded.ok ? 'accepted' : decoded.why
}

describe('what is taken', () => {
  test('rows come sorted by time, with their events', () => {
    const trace = read(`time,temp_c,event\n${T(2)},61,stir\n${T(0)},60,stage:dye goods-in\n`)
    expect(trace.moments.map((m) => [m.tempC, m.events.map((e) => e.kind)])).toEqual([
      [60, ['stage', 'goods-in']],
      [61, ['stir']],
    ])
  })

  test('°F is a column of its own', () => {
    expect(read(`time,temp_f\n${T(0)},212\n`).moments[0]!.tempC).toBe(100)
  })

  test('an empty temperature carries only its events; further columns and a byte-order mark are ignored', () => {
    const trace = read(`\uFEFFid,time,temp_c,event,battery\r\n7,${T(0)},,dial:3.5,88\r\n`)
    expect(trace.moments[0]).toMatchObject({
      tempC: null,
      events: [{ kind: 'dial', dial: 3.5 }],
      found: null,
    })
  })

  test('columns come in any order', () => {
    expect(read(`temp_f,time\n212,${T(0)}\n`).moments[0]!.tempC).toBe(100)
    expect(read(`temp_c,event,time\r\n60,stir,${T(0)}\r\n`).moments[0]).toMatchObject({
      tempC: 60,
      events: [{ kind: 'stir' }],
    })
  })

  // RFC 4180, section 2, rules 5 to 7: quoted fields, line ends within, doubled quotes.
  test('quoted cells may hold commas, line ends and quotes', () => {
    const trace = read(`note,time,temp_c\n"a, ""b""\nc",${T(0)},60\n`)
    expect(trace.moments[0]!.tempC).toBe(60)
  })

  test('an offset counts, to the millisecond', () => {
    const trace = read('time,temp_c\n2026-03-12T09:00:00.2504+01:00,60\n')
    expect(trace.moments[0]!.atMs).toBe(Date.UTC(2026, 2, 12, 8, 0, 0, 250))
  })
})

describe('what is counted', () => {
  test('the same time and temperature twice is a duplicate, another temperature is rejected', () => {
    const trace = read(`time,temp_c\n${T(0)},60\n${T(1)},60.1\n${T(1)},60.1\n${T(1)},99\n`)
    expect(trace).toMatchObject({ duplicates: 1, rejected: 1 })
    expect(trace.moments.map((m) => m.tempC)).toEqual([60, 60.1])
  })

  test('which of two temperatures stays does not hang on the order of the rows', () => {
    const rows = [`${T(0)},60`, `${T(1)},99`, `${T(1)},60.1`]
    expect(read(`time,temp_c\n${rows.join('\n')}`).moments).toEqual(
      read(`time,temp_c\n${rows.toReversed().join('\n')}`).moments,
    )
  })

  test('a cell that is no number is rejected', () => {
    for (const cell of ['--', 'NaN', '71 C', '"71,5"', 'inf', '0x20'])
      expect(read(`time,temp_c\n${T(0)},60\n${T(1)},${cell}\n`)).toMatchObject({ rejected: 1 })
  })
})

describe('what is refused, with the line, what was found and what is allowed', () => {
  test('a time without a zone', () => {
    const text = why(`time,temp_c\n${T(0)},60\n2026-03-12T08:00:01,60\n`)
    expect(text).toContain('line 3')
    expect(text).toContain('2026-03-12T08:00:01')
    expect(text).toContain('with Z or an offset')
  })

  test('the line of the file counts, also after a cell that goes over two', () => {
    expect(why(`note,time,temp_c\n"a\nb",${T(0)},60\n"c",${T(1)},60\n"d",yesterday,60\n`)).toContain('line 5')
  })

  test('a day that does not exist', () => {
    expect(why('time,temp_c\n2026-02-30T08:00:00Z,60\n')).toContain('2026-02-30')
  })

  test('a word that is not known and a stage that the plan does not have', () => {
    expect(why(`time,temp_c,event\n${T(0)},60,goods-inn\n`)).toContain('goods-inn')
    expect(why(`time,temp_c,event\n${T(0)},60,stage:dip\n`)).toMatch(/line 2.*dip.*mordant, dye/)
  })

  test('a header without its columns, an empty file, a quote that never closes', () => {
    expect(why('date,temp_c\n')).toContain('time')
    expect(why('time,celsius\n')).toContain('temp_c')
    expect(why('')).toContain('empty')
    expect(why('time,temp_c\n')).toContain('no row')
    expect(why(`time,temp_c\n"${T(0)},60\n`)).toContain('quote')
  })
})

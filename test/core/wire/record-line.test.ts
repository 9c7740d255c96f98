import { expect, test } from 'vitest'
import { decodeRecordLine, recordLineOf } from '#core/wire/record-line'

const why = (json: unknown) => {
  const decoded = decodeRecordLine(json)
  return decoded.ok ? 'accepted' : decoded.why
}

test('a weighing, a pH and a note are lines of a record', () => {
  const weighing = { stageId: 'dye', additive: 'madder', plannedG: 400, weighedG: 396.5, lot: 'R-11' }
  expect(decodeRecordLine({ kind: 'weighing', body: weighing, who: ' Ash ' })).toEqual({
    ok: true,
    line: { kind: 'weighing', body: weighing, who: 'Ash' },
  })
  expect(why({ kind: 'ph', body: { ph: 6.8, when: 'start' }, atMs: 5 })).toBe('accepted')
  expect(why({ kind: 'note', body: { text: 'A jug of cold water went in.' } })).toBe('accepted')
})

test('an unknown kind, field or value is refused with what is allowed', () => {
  expect(why({ kind: 'weighin', body: {} })).toContain('"weighing"')
  expect(why({ kind: 'ph', body: { ph: 71 } })).toBe('ph: ph is 71; allowed is at most 14')
  expect(why({ kind: 'ph', body: { ph: 7, stage: 'dye' } })).toBe(
    'ph: the field "stage" is not known; the nearest known one is "stageId"',
  )
  expect(why({ kind: 'check', body: { place: 'side', tempC: 80 } })).toContain('"bottom"')
  expect(
    why({ kind: 'weighing', body: { stageId: 'dye', additive: 'madder', weighedG: Number.NaN } }),
  ).toContain('NaN')
})

test('an empty line is refused, and taking back needs to say which line', () => {
  expect(why({ kind: 'goods', body: {} })).toContain('nothing in it')
  expect(why({ kind: 'withdrawn' })).toContain('replaces')
  expect(why({ kind: 'withdrawn', replaces: 4 })).toBe('accepted')
})

test('a stored line of a kind that is not known is left out, not guessed at', () => {
  const stored = { id: 1, atMs: 1, notedMs: 1, who: null, replaces: null }
  expect(recordLineOf({ ...stored, kind: 'ph', body: { ph: 7 } })).toMatchObject({
    kind: 'ph',
    body: { ph: 7 },
  })
  expect(recordLineOf({ ...stored, kind: 'weather', body: {} })).toBeNull()
  expect(recordLineOf({ ...stored, kind: 'ph', body: { ph: 'seven' } })).toBeNull()
})

import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Sample } from '#core/measure/reading'
import { decodeSenml } from '#core/wire/senml'
import { encodeSenml } from '#core/wire/senml-encode'

const ARRIVAL_MS = 1_760_000_000_000

const rawValues = (body: unknown): number[] =>
  decodeSenml(body, ARRIVAL_MS).accepted.flatMap(({ sample: s }) => (s.kind === 'temp' ? [s.rawC] : []))

const temps = (body: unknown) =>
  decodeSenml(body, ARRIVAL_MS).accepted.map(({ sample }) => [
    sample.probe,
    sample.atMs,
    sample.kind === 'temp' ? sample.rawC : sample.fault,
  ])

// RFC 8428 §5.1.1, to the letter.
test('a single data point without a time is of its arrival', () => {
  expect(temps([{ n: 'urn:dev:ow:10e2073a01080063', u: 'Cel', v: 23.1 }])).toEqual([
    ['urn:dev:ow:10e2073a01080063', ARRIVAL_MS, 23.1],
  ])
})

// RFC 8428 §5.1.3's shape (base name, base time, base unit, times from it) with our unit.
test('base name, time and unit go on until replaced, and base value is added', () => {
  const pack = [
    { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: 'Cel', v: 21.2 },
    { t: 10, v: 21.3 },
    { t: 20, v: 21.4, u: 'Cel' },
    { bn: 'studio/', n: 'wren', bt: 1320067500, t: 1, bv: 60, v: 4.5 },
  ]
  expect(temps(pack)).toEqual([
    ['urn:dev:ow:10e2073a01080063', 1320067464000, 21.2],
    ['urn:dev:ow:10e2073a01080063', 1320067474000, 21.3],
    ['urn:dev:ow:10e2073a01080063', 1320067484000, 21.4],
    ['wren', 1320067501000, 64.5],
  ])
})

// RFC 8428 §5.1.3: nine values, ten seconds apart; its unit is %RH, ours Cel.
test('the stream of nine values of the standard resolves to its times and values', () => {
  const values = [21.2, 21.3, 21.4, 21.4, 21.5, 21.5, 21.5, 21.6, 21.7]
  const base = { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: 'Cel' }
  const pack = values.map((v, i) => (i === 0 ? { ...base, v } : { v, t: 10 * i }))
  const name = 'urn:dev:ow:10e2073a01080063'
  expect(temps(pack)).toEqual(values.map((v, i) => [name, 1_320_067_464_000 + 10_000 * i, v]))
})

// RFC 8428 §5.1.4: a record's own unit stands before the base unit.
test('a unit of its own takes a record out of the base unit, and only that record', () => {
  const pack = [
    { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: '%RH', v: 20 },
    { u: 'Cel', v: 23.1, t: 60 },
    { v: 20.5, t: 60 },
  ]
  expect(temps(pack)).toEqual([['urn:dev:ow:10e2073a01080063', 1_320_067_524_000, 23.1]])
})

// RFC 8428 §5.1.2: bt 1.276020076001e9 and t −5 resolve to 1276020071.001 s.
test('base time and time are added first, and the sum goes to the nearest millisecond', () => {
  expect(temps([{ bn: 'a/b', bt: 1.276020076001e9, bu: 'Cel', t: -5, v: 1.2 }])[0]![1]).toBe(1276020071001)
})

// RFC 8428 §4.5.3: times below 2^28 seconds are relative to now, either way.
test('a time under 2^28 s is relative to now, at the bound it is absolute', () => {
  expect(temps([{ n: 'a/b', u: 'Cel', t: -30.0004, v: 70 }])[0]![1]).toBe(ARRIVAL_MS - 30_000)
  expect(temps([{ n: 'a/b', u: 'Cel', t: 2.5, v: 70 }])[0]![1]).toBe(ARRIVAL_MS + 2500)
  const bound = decodeSenml([{ n: 'a/b', u: 'Cel', t: 268_435_456, v: 70 }], ARRIVAL_MS).accepted[0]!
  expect(bound.deviceMs).toBe(268_435_456_000)
})

test('a device that lives in 1970 or in the future is stamped on arrival, order and distances kept', () => {
  const inThePast = [
    { bn: 'b/p', bu: 'Cel', t: 946_684_800, v: 70 },
    { t: 946_684_810, v: 71 },
  ]
  expect(temps(inThePast)).toEqual([
    ['p', ARRIVAL_MS - 10_000, 70],
    ['p', ARRIVAL_MS, 71],
  ])
  const ahead = decodeSenml([{ n: 'b/p', u: 'Cel', t: ARRIVAL_MS / 1000 + 3600, v: 70 }], ARRIVAL_MS)
    .accepted[0]!
  expect(ahead).toMatchObject({ deviceMs: ARRIVAL_MS + 3_600_000, sample: { atMs: ARRIVAL_MS } })
})

test('one bad record never blocks the others, and each is refused with its reason', () => {
  const { accepted, refused } = decodeSenml(
    [
      { n: 'b/p', u: 'Cel', v: 70 },
      { n: 'b/p', u: 'degC', v: 70 },
      { n: 'b/p', u: 'Cel', v: '70' },
      { n: 'p', u: 'Cel', v: 70 },
      { n: 'b/p', u: 'Cel' },
      { n: 'b/p', u: 'Cel', v: 70, critical_: 1 },
      null,
      { n: 'b/p', v: 70 },
      { n: 'b/p', u: 'Cel', v: 71 },
    ],
    ARRIVAL_MS,
  )
  expect(accepted.map((a) => a.index)).toEqual([0, 8])
  expect(refused.map((r) => r.index)).toEqual([1, 2, 3, 4, 5, 6, 7])
  for (const { why } of refused) expect(why.length).toBeGreaterThan(15)
})

test('an impossible value is kept as a fault, with what was found', () => {
  const { accepted } = decodeSenml([{ n: 'b/p', u: 'Cel', v: 176 }], ARRIVAL_MS)
  expect(accepted[0]!.sample).toEqual({
    kind: 'fault',
    probe: 'p',
    atMs: ARRIVAL_MS,
    fault: 'impossible',
    found: '176',
  })
})

test('what is no pack at all is refused in one sentence', () => {
  for (const body of [null, 3, 'x', { n: 'b/p' }]) {
    expect(decodeSenml(body, ARRIVAL_MS).refused).toHaveLength(1)
  }
  expect(decodeSenml([], ARRIVAL_MS)).toEqual({ accepted: [], refused: [] })
})

const sample: fc.Arbitrary<Sample> = fc
  .record({
    probe: fc.constantFrom('wren', 'heron', 'otter.top'),
    atMs: fc.integer({ min: ARRIVAL_MS - 86_400_000, max: ARRIVAL_MS }),
    rawC: fc.double({ min: -20, max: 110, noNaN: true }).map((c) => (c === 0 ? 0 : c)),
    fault: fc.constantFrom('not-connected' as const, 'error-code' as const, 'impossible' as const),
    found: fc.constantFrom('', '-127', 'open circuit', 'a: b'),
    isTemp: fc.boolean(),
  })
  .map(({ probe, atMs, rawC, fault, found, isTemp }) =>
    isTemp ? { kind: 'temp', probe, atMs, rawC } : { kind: 'fault', probe, atMs, fault, found },
  )

test('what a bridge encodes is decoded to the same, to the millisecond, through JSON', () => {
  fc.assert(
    fc.property(fc.array(sample, { maxLength: 20 }), (samples) => {
      const rows = samples.map((s, seq) => ({ sample: s, serial: { boot: 'b1', seq } }))
      const { accepted, refused } = decodeSenml(
        JSON.parse(JSON.stringify(encodeSenml('studio', rows))),
        ARRIVAL_MS,
      )
      expect(refused).toEqual([])
      expect(accepted.map((a) => ({ sample: a.sample, serial: a.serial }))).toEqual(rows)
    }),
  )
})

test('any JSON at all is answered and never throws, and each number accepted was sent', () => {
  const nearly = fc.record(
    {
      n: fc.constantFrom('a/b', 'urn:x:y', '', 'a'),
      u: fc.constantFrom('Cel', 'V'),
      v: fc.oneof(fc.double(), fc.string()),
      t: fc.oneof(fc.double(), fc.jsonValue()),
      vs: fc.string(),
    },
    { requiredKeys: [] },
  )
  fc.assert(
    fc.property(fc.oneof(fc.jsonValue(), fc.array(nearly)), (body) => {
      const text = JSON.stringify(body)
      expect(rawValues(body).filter((rawC) => !text.includes(JSON.stringify(rawC)))).toEqual([])
    }),
  )
})

// RFC 8428 §4.4: a version that is not supported must not be processed; 10 is the one that the RFC defines.
test('version 10 is read and a later one is not', () => {
  const sent = [10, 11].map((bver) => temps([{ bver, n: 'urn:x', u: 'Cel', v: 20 }]).length)
  expect(sent).toEqual([1, 0])
})

test('a name needs a bridge before its slash and a probe behind it', () => {
  const names = ['barn/wren', 'b/w', 'barn/', '/wren', 'wren', 'urn:']
  const taken = names.filter((n) => temps([{ n, u: 'Cel', v: 20 }]).length === 1)
  expect(taken).toEqual(['barn/wren', 'b/w'])
})

test('the first reading of a run is counted 0, and a run is named by at most 64 characters', () => {
  const [first] = decodeSenml(
    [{ n: 'b/w', u: 'Cel', v: 20, boot: 'x'.repeat(64), seq: 0 }],
    ARRIVAL_MS,
  ).accepted
  expect(first?.serial).toEqual({ boot: 'x'.repeat(64), seq: 0 })
  const long = [{ n: 'b/w', u: 'Cel', v: 20, boot: 'x'.repeat(65), seq: 0 }]
  expect(decodeSenml(long, ARRIVAL_MS).accepted).toEqual([])
})

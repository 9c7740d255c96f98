import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Plan } from '#core/plan/plan'
import { decodeTrace } from '#core/wire/trace-file'
import { replayAsJson } from '../../../server/commands/replay-json.ts'
import { hold, plan } from '../../kit/watch-day.ts'

const PLAN: Plan = plan(hold({ id: 'dye', windowC: [65, 72], ceilingC: 76, holdMin: 30 }), {
  kind: 'cool',
  id: 'cool',
  title: 'Cool',
  additives: [],
  coolToC: 40,
})
const START_MS = Date.UTC(2026, 2, 12, 8)
const time = (s: number) => new Date(START_MS + s * 1000).toISOString()

/** A day with a dip, an overshoot, a gap, a second value, a bad cell, then a cool-down toward 18 °C. */
function dayRows(): string[] {
  const rows: string[] = []
  for (let s = 0; s <= 9000; s += 5) {
    if (s > 3000 && s < 3100) continue
    const event = s === 0 ? 'stage:dye goods-in' : s === 5400 ? 'stage:cool dial:0' : s === 9000 ? 'end' : ''
    const bathC =
      s < 1200
        ? 50 + (18 * s) / 1200
        : s < 5400
          ? 68 + 5 * Math.sin((s - 1200) / 400)
          : 18 + 54 * Math.exp(-(s - 5400) / 7000)
    rows.push(`${time(s)},${bathC.toFixed(3)},${event}`)
  }
  return [...rows, `${time(500)},99.5,`, `${time(700)},--,`]
}

const ROWS = dayRows()

function replay(rows: readonly string[], lag: number | null = null): string[] {
  const decoded = decodeTrace(
    `time,temp_c,event\n${rows.join('\n')}\n`,
    PLAN.stages.map((s) => s.id),
  )
  if (!decoded.ok) throw new Error(decoded.why)
  let out = ''
  replayAsJson(decoded.trace, { plan: PLAN, vessel: null, lagS: lag }, false, (text) => (out += text))
  return out.trimEnd().split('\n')
}

const withoutReadings = (lines: readonly string[]) =>
  lines.map((line) => {
    const { readings: _readings, ...rest } = JSON.parse(line) as Record<string, unknown>
    return rest
  })

test('the same trace gives the same lines to the byte', () => {
  expect(replay(dayRows())).toEqual(replay(dayRows()))
})

test('a shuffled and doubled trace gives the same lines, readings apart', () => {
  const clean = withoutReadings(replay(dayRows()))
  fc.assert(
    fc.property(
      fc.shuffledSubarray(ROWS, { minLength: ROWS.length }),
      fc.integer({ min: 0, max: 400 }),
      (rows, doubled) => {
        expect(withoutReadings(replay([...rows, ...rows.slice(0, doubled)]))).toEqual(clean)
      },
    ),
    { numRuns: 3, seed: 7 },
  )
})

test('the summary has its stages, alarms, cool-downs and counts', () => {
  const summary = JSON.parse(replay(dayRows()).at(-1)!)
  expect(summary.kind).toBe('summary')
  const [dye, cool] = summary.stages
  const bins =
    dye.inWindowS + dye.aboveWindowS + dye.belowWindowS + dye.aboveCeilingS + dye.unknownS + dye.goodsOutS
  expect(dye.endedAt).toBe(time(5400))
  expect(dye.unknownS).toBe(100)
  expect(bins).toBeGreaterThan(4000)
  expect(cool).toMatchObject({ id: 'cool', requiredS: null, inWindowS: null, endedAt: time(9000) })
  expect(summary.readings).toMatchObject({ rejected: 2, duplicates: 0 })
  // 18 + 54·exp(−t/7000 s) is at 40 °C after 7000·ln(54/22) = 6285 s: not within the trace.
  expect(summary.cooling[0].reachedAt).toBeNull()
})

test('a reading at the moment of the end is the last one of its stage, and one at a change of stage the next one’s', () => {
  const rows = [`${time(0)},70,stage:dye`]
  for (let s = 30; s < 600; s += 30) rows.push(`${time(s)},70,`)
  const ended = JSON.parse(replay([...rows, `${time(600)},73,end`]).at(-1)!)
  // From 70 to 73 within 30 s on a straight line: the last 10 s are over 72.
  expect(ended.stages[0]).toMatchObject({ maxC: 73, aboveWindowS: 10 })
  const changed = JSON.parse(replay([...rows, `${time(600)},73,stage:cool`, `${time(630)},72,end`]).at(-1)!)
  expect(changed.stages[0]).toMatchObject({ maxC: 70, aboveWindowS: 10 })
  expect(changed.stages[1]).toMatchObject({ minC: 72, maxC: 73 })
})

test('Newton’s law comes back from its own curve', () => {
  // T = 18 + 54·exp(−t/τ) with τ = 7000 s (OpenStax Calculus 2, section 4.3: the law itself).
  const rows: string[] = []
  for (let s = 0; s <= 14_400; s += 10)
    rows.push(`${time(s)},${(18 + 54 * Math.exp(-s / 7000)).toFixed(3)},${s === 0 ? 'stage:cool' : ''}`)
  const { cooling } = JSON.parse(replay(rows).at(-1)!)
  expect(Math.abs(Date.parse(cooling[0].reachedAt) - (START_MS + 6_285_000)) / 1000).toBeLessThan(15)
  expect(cooling[0].fittedTauMin).toBeGreaterThan(105)
  expect(cooling[0].fittedTauMin).toBeLessThan(129)
})

test('where no stage is noted, the first one runs from the first row, with the goods in', () => {
  const rows = Array.from({ length: 601 }, (_, s) => `${time(s)},68,`)
  const { stages } = JSON.parse(replay(rows).at(-1)!)
  expect(stages).toHaveLength(1)
  expect(stages[0]).toMatchObject({ id: 'dye', startedAt: time(0), endedAt: time(600), inWindowS: 600 })
})

test('goods that go in later were out before, through all stages', () => {
  const rows = Array.from(
    { length: 1201 },
    (_, s) => `${time(s)},68,${s === 300 ? 'goods-in' : s === 900 ? 'goods-out' : ''}`,
  )
  const { stages } = JSON.parse(replay(rows).at(-1)!)
  expect(stages[0]).toMatchObject({ inWindowS: 600, goodsOutS: 300 })
})

test('an alarm that grows urgent has a line of its own, so that raisings and clearings pair', () => {
  const rows = Array.from({ length: 301 }, (_, s) => `${time(s)},68,${s === 0 ? 'stage:dye dial:6' : ''}`)
  const lines = replay([...rows, `${time(800)},68,`]).map(
    (line) => JSON.parse(line) as { kind: string; change?: string },
  )
  const about = lines.filter((l) => l.kind === 'alarm' || l.kind === 'escalation')
  expect(about.map((l) => l.change ?? l.kind)).toEqual(['raised', 'escalation', 'cleared'])
})

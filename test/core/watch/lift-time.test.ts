import { expect, test } from 'vitest'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import type { Lid } from '#core/bath/pot-model'
import { nextClockMs } from '#core/watch/next-clock'
import { potLiftTime } from '#core/watch/stove'
import { evening, learningEvening } from '../../kit/stove-evening.ts'
import { type LabPot, labPot, labStart } from '../../kit/stove-lab.ts'
import { DAY_MS, WatchDay, plan } from '../../kit/watch-day.ts'

const HOUR = 3_600_000
const COOL = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 35, additives: [] } as const
const LIFT_C = 40

/** From 70 °C with the burner off: an hour lidded, then with this lid. The lab's physics is not the model's. */
function cooling(pot: LabPot, lid: Lid) {
  const doings = [
    { dial: 0, lid: 'on', minutes: 60 },
    { lid, minutes: 900, downToC: LIFT_C - 2 },
  ] as const
  return evening(pot, doings, labStart(pot, 70))
}

const liftMs = ({ truth }: ReturnType<typeof cooling>): number =>
  truth.find((p) => p.tempC <= LIFT_C)!.atMs + DAY_MS

/** A day on which the bath has cooled for an hour. */
function hourIn(pot: LabPot, trace: ReturnType<typeof cooling>['trace']): WatchDay {
  const belief = learnFrom(guessPot(pot.vessel), learningEvening(pot).trace).belief
  const day = new WatchDay()
  day.pot('heron', '00:00', { vessel: pot.vessel, belief })
  day.batch('heron', '00:00', plan(COOL)).note('heron', '00:00', 'stage:cool lid:on')
  for (const { atMs, tempC } of trace.readings.filter((r, i) => i % 10 === 0 && r.atMs < HOUR))
    day.read('heron', DAY_MS + atMs, tempC)
  return day
}

test('an hour into a cool-down the alarm clock is told before, perhaps or not before, and what the other lid does', () => {
  const pot = labPot(14, 'coil', 3)
  const lidded = cooling(pot, 'on')
  const trueMs = liftMs(lidded)
  const day = hourIn(pot, lidded.trace)
  const at = (wakeMs: number) => potLiftTime(day.state, 'heron', DAY_MS + HOUR, { wakeMs, liftC: LIFT_C })!
  const late = at(trueMs + 3 * HOUR)
  expect([late.verdict, late.lid]).toEqual(['before', 'on'])
  expect(Math.abs(late.liftMs! - trueMs)).toBeLessThan(0.05 * (trueMs - DAY_MS - HOUR))
  const [early90, late90] = late.range90Ms!
  expect(early90).toBeLessThan(trueMs)
  expect(late90).toBeGreaterThan(trueMs)
  expect([at(late.liftMs!).verdict, at(trueMs - HOUR).verdict]).toEqual(['perhaps', 'not-before'])
  const openMs = liftMs(cooling(pot, 'off'))
  expect(Math.abs(late.otherLidMs! - openMs)).toBeLessThan(0.15 * (openMs - DAY_MS - HOUR))
})

test('a bath that is cool enough can be lifted, and one that nobody sees says nothing', () => {
  const pot = labPot(14, 'coil', 3)
  const day = hourIn(pot, cooling(pot, 'on').trace)
  const ask = (liftC: number, atMs: number) =>
    potLiftTime(day.state, 'heron', atMs, { wakeMs: DAY_MS + 9 * HOUR, liftC })
  expect(ask(69.5, DAY_MS + HOUR)).toMatchObject({ verdict: 'reached', otherLidMs: null })
  expect(ask(LIFT_C, DAY_MS + HOUR + 600_000)).toBe(null)
})

const iso = (atMs: number) => new Date(atMs).toISOString().slice(5, 16)
const next = (from: string, clock: string, zone: string) =>
  iso(nextClockMs(Date.parse(`2026-${from}Z`), clock, zone))

test('the clock next shows an hour today, tomorrow, and around the change of the clocks', () => {
  expect(next('03-12T22:00:30', '06:30', 'UTC')).toBe('03-13T06:30')
  expect(next('03-12T06:29:59', '06:30', 'UTC')).toBe('03-12T06:30')
  expect(next('03-12T06:30:00', '06:30', 'UTC')).toBe('03-13T06:30')
  expect(next('03-12T22:00:00', '06:30', 'America/New_York')).toBe('03-13T10:30')
  // The EU sets clocks forward at 01:00 UTC on 29 March 2026 and back on 25 October (directive 2000/84/EC).
  expect(next('03-28T21:00:00', '06:30', 'Europe/Berlin')).toBe('03-29T04:30')
  expect(next('10-24T21:00:00', '06:30', 'Europe/Berlin')).toBe('10-25T05:30')
})

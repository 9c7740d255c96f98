import { expect, test } from 'vitest'
import type { Plan } from '#core/plan/plan'
import { inAirOf, isInAir } from '#core/batch/in-air'

const PLAN: Plan = {
  title: 'Red on wool',
  fibre: 'wool',
  stages: [
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 10, additives: [] },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 30, additives: [] },
  ],
}
const run = (stageId: string, startedMs: number, endedMs: number | null) => ({ stageId, startedMs, endedMs })

const alarm = (name: string, sinceMs: number, clearedMs: number | null) => ({
  alarm: name,
  sinceMs,
  clearedMs,
})

test('a probe is in no bath through a rest, and while it was held for taken out', () => {
  const runs = [run('rinse', 0, 600), run('cool', 600, 9000)]
  const alarms = [
    alarm('probe-out', 2000, 2500),
    alarm('not-cooling', 3000, 4000),
    alarm('probe-out', 8000, null),
  ]
  expect(inAirOf({ plan: PLAN, runs }, alarms)).toEqual([
    [0, 600],
    [2000, 2500],
    [8000, null],
  ])
})

test('its bounds belong to the bath, and what has no end goes on', () => {
  const stretches = [
    [2000, 2500],
    [8000, null],
  ] as const
  const inAir = [1999, 2000, 2001, 2499, 2500, 8000, 8001, 1e12].filter((ms) => isInAir(ms, stretches))
  expect(inAir).toEqual([2001, 2499, 8001, 1e12])
})

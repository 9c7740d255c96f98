import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { AlarmHappening } from '#core/watch/happening'
import { type AlarmDesk, type DeskInput, emptyDesk, endUnfounded, stepDesk } from '#core/watch/alarm-desk'
import { forgetBefore, isStanding, openEntries } from '#core/watch/alarm-keeping'
import { ALARM_DAY_MS, alarmHappening } from '../../kit/alarm-happening.ts'

const T = ALARM_DAY_MS
const MIN = 60_000

const raised = (atMin: number, more?: Partial<AlarmHappening>): DeskInput => ({
  kind: 'happening',
  happening: alarmHappening(atMin, more),
  late: false,
})
const cleared = (atMin: number, more?: Partial<AlarmHappening>) =>
  raised(atMin, { change: 'cleared', sinceMs: T, ...more })
const late = (input: DeskInput): DeskInput => (input.kind === 'happening' ? { ...input, late: true } : input)
const tick = (atMin: number): DeskInput => ({ kind: 'tick', atMs: T + atMin * MIN })
const acknowledge = (alarmId: number, atMin: number): DeskInput => ({
  kind: 'act',
  alarmId,
  act: { kind: 'acknowledge', atMs: T + atMin * MIN, who: 'Ina' },
})
const shelve = (alarmId: number, atMin: number, minutes: number): DeskInput => ({
  kind: 'act',
  alarmId,
  act: { kind: 'shelve', atMs: T + atMin * MIN, minutes },
})

/** Folds inputs; gives the desk and each change as `change alarmId state`. */
function fold(inputs: readonly DeskInput[], from: AlarmDesk = emptyDesk) {
  let desk = from
  const told: string[] = []
  const refused: string[] = []
  for (const input of inputs) {
    const step = stepDesk(desk, input)
    desk = step.desk
    told.push(...step.changes.map((c) => `${c.change} ${c.entry.alarmId} ${c.entry.life.kind}`))
    if (step.refused !== null) refused.push(step.refused)
  }
  return { desk, told, refused }
}

test('an alarm raised, acknowledged and cleared leaves the open list and stays in the record', () => {
  const { desk, told } = fold([raised(1), acknowledge(1, 2), cleared(5)])
  expect(told).toEqual(['raised 1 unacknowledged', 'acknowledged 1 acknowledged', 'cleared 1 normal'])
  expect(openEntries(desk)).toEqual([])
  expect(desk.entries[0]).toMatchObject({ acknowledgedBy: 'Ina', clearedMs: T + 5 * MIN })
})

test('one that cleared before anyone looked stays open until acknowledged', () => {
  const { desk, told } = fold([raised(1), cleared(5)])
  expect(openEntries(desk).map((e) => e.life.kind)).toEqual(['returned-unacknowledged'])
  expect(told).toHaveLength(2)
  expect(openEntries(fold([acknowledge(1, 9)], desk).desk)).toEqual([])
})

test('when it comes again there is a second record and still only one thing to acknowledge', () => {
  const { desk } = fold([raised(1), cleared(5), raised(9)])
  expect(desk.entries.map((e) => e.alarmId)).toEqual([1, 2])
  expect(openEntries(desk).map((e) => e.alarmId)).toEqual([2])
})

test('a shelf holds while the alarm comes and goes, then ends by itself and calls', () => {
  const { desk, told } = fold([raised(1), shelve(1, 2, 10), cleared(4), raised(6), tick(11.9)])
  expect(told.at(-1)).toBe('raised 2 shelved')
  expect(fold([tick(12)], desk).told).toEqual(['unshelved 2 unacknowledged'])
})

test('the same alarm in another pot or another stage has a life of its own', () => {
  const { desk } = fold([
    raised(1),
    shelve(1, 2, 60),
    cleared(3),
    raised(4, { potId: 'wren' }),
    raised(5, { stageId: 'mordant' }),
  ])
  expect(openEntries(desk).map((e) => e.life.kind)).toEqual(['shelved', 'unacknowledged', 'unacknowledged'])
})

test('raised again at a higher urgency it wants its person again; at the same or a lower one it is no news', () => {
  const silent = { alarm: 'probe-silent' } as const
  const before = fold([raised(1, silent), acknowledge(1, 1.5)])
  expect(fold([raised(2, silent)], before.desk).told).toEqual([])
  const worse = fold([raised(3, { ...silent, urgency: 'at-once' })], before.desk)
  expect(worse.told).toEqual(['worsened 1 unacknowledged'])
  expect(worse.desk.entries[0]).toMatchObject({ urgency: 'at-once', acknowledgedMs: null })
  expect(fold([raised(4, silent)], worse.desk).told).toEqual([])
})

test('an at-once alarm that was acknowledged and still stands after a quarter of an hour calls again', () => {
  const ceiling = { alarm: 'above-ceiling', urgency: 'at-once' } as const
  const { desk, told } = fold([raised(1, ceiling), acknowledge(1, 2), tick(16.9)])
  expect(told).toHaveLength(2)
  expect(fold([tick(17), tick(17.1)], desk).told).toEqual(['reminded 1 unacknowledged'])
  expect(fold([cleared(10, ceiling), tick(17)], desk).told).toEqual(['cleared 1 normal'])
  expect(fold([raised(1), acknowledge(1, 2), tick(60)]).told).toHaveLength(2)
})

test('a day folded again after a restart meets the rows that are there: nothing is raised twice', () => {
  const day = [raised(1), cleared(5), raised(9), raised(3, { potId: 'wren' }), cleared(12), raised(20)]
  const before = fold([day[0]!, acknowledge(1, 2), ...day.slice(1)]).desk
  const again = fold(day, before)
  expect(again.told).toEqual([])
  expect(again.desk.entries).toEqual(before.entries)
})

test('a fold with late readings, which begins the alarm a little earlier, still meets its row', () => {
  const before = fold([raised(3)]).desk
  expect(fold([raised(2, { sinceMs: T - MIN })], before).told).toEqual([])
})

test('an alarm that begins in the same trough as the one before it is a new one when it is decided later', () => {
  const since = { alarm: 'not-cooling', sinceMs: T, urgency: 'at-once' } as const
  const { told } = fold([raised(5, since), cleared(10, since), raised(30, since)])
  expect(told.at(-1)).toBe('raised 2 unacknowledged')
})

test('raised again in the very moment in which it cleared, it stands', () => {
  const { desk, told } = fold([raised(1), cleared(10), raised(10)])
  expect(told.at(-1)).toBe('raised 2 unacknowledged')
  expect(openEntries(desk).some(isStanding)).toBe(true)
  expect(fold([raised(1), cleared(10), raised(10)], desk).told).toEqual([])
})

test('found late and over: it is in the record and never calls', () => {
  const { desk, told } = fold([late(raised(1)), late(cleared(5)), tick(60)])
  expect(told).toEqual(['raised 1 normal', 'cleared 1 normal'])
  expect(openEntries(desk)).toEqual([])
})

test('found late and still so: it calls at the next tick', () => {
  const { told } = fold([late(raised(1)), tick(60), tick(61)])
  expect(told).toEqual(['raised 1 normal', 'raised 1 unacknowledged'])
})

test('a stored alarm that the record does not bear out any more ends', () => {
  const before = fold([raised(1), raised(2, { potId: 'wren' })]).desk
  const step = endUnfounded(before, [alarmHappening(1)], T + 9 * MIN)
  expect(step.changes.map((c) => `${c.change} ${c.entry.potId}`)).toEqual(['cleared wren'])
})

test('acts on what is not there, or not possible, are refused in a sentence and change nothing', () => {
  const { desk, told, refused } = fold([
    acknowledge(7, 1),
    raised(1, { alarm: 'above-ceiling' }),
    shelve(1, 2, 5),
  ])
  expect(told).toEqual(['raised 1 unacknowledged'])
  expect(refused).toEqual([
    'there is no alarm with the number 7',
    'above-ceiling is never shelved: acknowledge it and go to the pot',
  ])
  expect(desk.entries).toHaveLength(1)
})

test('forgetting keeps whatever is not over', () => {
  const { desk } = fold([raised(1), acknowledge(1, 2), cleared(5), raised(9)])
  expect(forgetBefore(desk, T + 60 * MIN).entries.map((e) => e.alarmId)).toEqual([2])
  expect(forgetBefore(desk, T + 5 * MIN).entries.map((e) => e.alarmId)).toEqual([1, 2])
})

test('no alarm is raised twice without clearing, whatever comes in whatever order', () => {
  const input = fc.oneof(
    fc.record({ pot: fc.constantFrom('wren', 'heron'), up: fc.boolean(), late: fc.boolean() }),
    fc.record({ id: fc.integer({ min: 1, max: 9 }), act: fc.constantFrom('acknowledge', 'shelve') }),
    fc.constant('tick' as const),
  )
  fc.assert(
    fc.property(fc.array(input, { maxLength: 80 }), (days) => {
      let desk = emptyDesk
      const standing = new Set<number>()
      for (const [i, what] of days.entries()) {
        const step = stepDesk(desk, inputOf(what, i))
        desk = step.desk
        for (const { change, entry } of step.changes) {
          if (change === 'raised') standing.add(entry.alarmId)
          const wasStanding = standing.has(entry.alarmId)
          if (change === 'cleared') standing.delete(entry.alarmId)
          expect(change !== 'cleared' || wasStanding).toBe(true)
        }
        for (const pot of ['wren', 'heron'])
          expect(desk.entries.filter((e) => e.potId === pot && isStanding(e)).length).toBeLessThan(2)
      }
      expect(desk.entries.filter((e) => e.clearedMs === null)).toHaveLength(standing.size)
    }),
  )
})

type Drawn = 'tick' | { pot: string; up: boolean; late: boolean } | { id: number; act: string }

function inputOf(what: Drawn, atMin: number): DeskInput {
  if (what === 'tick') return tick(atMin)
  if ('id' in what) return what.act === 'shelve' ? shelve(what.id, atMin, 3) : acknowledge(what.id, atMin)
  const input = what.up ? raised(atMin, { potId: what.pot }) : cleared(atMin, { potId: what.pot })
  return what.late ? late(input) : input
}

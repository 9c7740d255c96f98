import { expect, test } from 'vitest'
import { checklist } from '#core/batch/checklist'
import type { NotedEvent, StageProgress } from '#core/batch/progress'
import { classBatches } from '#core/batch/class-template'
import type { BathEvent } from '#core/plan/event'
import type { Plan } from '#core/plan/plan'

const T0 = Date.UTC(2026, 2, 12, 13, 0, 0)
const min = (m: number) => T0 + m * 60_000
const at = (m: number, event: BathEvent): NotedEvent => ({ atMs: min(m), event })

const PLAN: Plan = {
  title: 'Cochineal on Marl',
  fibre: 'wool',
  stages: [
    { id: 'soak', title: 'Soak', kind: 'soak', minutes: 60, additives: [] },
    {
      id: 'dye',
      title: 'Dye',
      kind: 'hold',
      windowC: [78, 86],
      ceilingC: 90,
      holdMin: 60,
      turnEveryMin: 10,
      outByMin: 120,
      goods: true,
      additives: [],
    },
    { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 38, outByMin: 300, additives: [] },
    { id: 'dry', title: 'Dry', kind: 'rest', minutes: 720, additives: [] },
  ],
}
const run = (stageId: string, from: number, to: number | null, inWindowS?: number): StageProgress => ({
  stageId,
  startedMs: min(from),
  endedMs: to === null ? null : min(to),
  bins:
    inWindowS === undefined
      ? null
      : {
          requiredS: 3600,
          inWindowS,
          aboveWindowS: 0,
          belowWindowS: 0,
          aboveCeilingS: 0,
          unknownS: 0,
          goodsOutS: 0,
        },
})
const look = (
  runs: readonly StageProgress[],
  events: readonly NotedEvent[],
  nowMin: number,
  coolsToMs?: number,
) => checklist({ plan: PLAN, runs, events, nowMs: min(nowMin), coolsToMs: coolsToMs ?? null })

test('before anything runs the first stage is to be started', () => {
  const list = look([], [], 0)
  expect(list).toMatchObject({ task: 'start', stage: { id: 'soak' }, next: { id: 'dye' }, untilMs: null })
  expect(list.stages.map((s) => s.state)).toEqual(['to-come', 'to-come', 'to-come', 'to-come'])
})

test('a soak is done after its minutes', () => {
  expect(look([run('soak', 0, null)], [], 20)).toMatchObject({ task: 'soak', untilMs: min(60) })
})

test('between two stages the next one is to be started, a stage left out is not asked for again', () => {
  expect(look([run('soak', 0, 60)], [], 61)).toMatchObject({ task: 'start', stage: { id: 'dye' } })
  expect(look([run('dye', 0, 60, 3600)], [], 61)).toMatchObject({ task: 'start', stage: { id: 'cool' } })
})

test('in a hold: goods out are to go in, then the bath is to reach its window, then it holds', () => {
  const out = [at(0, { kind: 'goods-out' })]
  expect(look([run('dye', 0, null)], out, 5)).toMatchObject({
    task: 'goods-in',
    turnDueMs: null,
    outByMs: null,
  })
  const inside = [...out, at(6, { kind: 'goods-in' })]
  expect(look([run('dye', 0, null)], inside, 7)).toMatchObject({ task: 'heat', turnDueMs: min(16) })
  expect(look([run('dye', 0, null, 600)], inside, 30)).toMatchObject({ task: 'hold', untilMs: min(80) })
  expect(look([run('dye', 0, null, 3600)], inside, 90)).toMatchObject({
    task: 'hold-done',
    next: { id: 'cool' },
  })
})

test('turning is due ten minutes after the last turn, whatever order the events come in', () => {
  const events = [at(21, { kind: 'stir' }), at(6, { kind: 'goods-in' }), at(12, { kind: 'stir' })]
  expect(look([run('dye', 0, null, 60)], events, 25).turnDueMs).toBe(min(31))
  expect(look([run('dye', 0, null, 60)], events, 15).turnDueMs).toBe(min(22))
})

test('a turn in the stage before does not count for this one', () => {
  const events = [at(-30, { kind: 'stir' })]
  expect(look([run('dye', 0, null, 60)], events, 5).turnDueMs).toBe(min(10))
})

test('out by counts from goods-in, through the cool-down', () => {
  const events = [at(6, { kind: 'goods-in' })]
  expect(look([run('dye', 0, null, 60)], events, 20).outByMs).toBe(min(126))
  const cooling = look([run('dye', 0, 100, 3600), run('cool', 100, null)], events, 110, min(400))
  expect(cooling).toMatchObject({ task: 'cool', untilMs: min(400), outByMs: min(306) })
})

test('after the last stage all is finished', () => {
  expect(look([run('dry', 0, 720)], [], 800)).toMatchObject({ task: 'finished', stage: null, next: null })
})

test('six pots are set up from one template, those without a probe by hand', () => {
  const pots = [1, 2, 3, 4, 5, 6].map((n) => ({
    id: `pot-${n}`,
    title: `Pot ${n}`,
    probe: n <= 3 ? `probe-${n}` : null,
  }))
  const other: Plan = { ...PLAN, title: 'Weld on Fen' }
  const batches = classBatches(
    {
      title: 'Class of May',
      plan: PLAN,
      dryWeightG: 100,
      pots: { 'pot-4': { plan: other, dryWeightG: 80, pupils: ['Ash', 'Bryn'] } },
    },
    pots,
  )
  expect(batches.map((b) => b.title)).toEqual([1, 2, 3, 4, 5, 6].map((n) => `Class of May · Pot ${n}`))
  expect(batches.filter((b) => b.byHand).map((b) => b.potId)).toEqual(['pot-4', 'pot-5', 'pot-6'])
  expect(batches[3]).toMatchObject({
    plan: { title: 'Weld on Fen' },
    dryWeightG: 80,
    pupils: ['Ash', 'Bryn'],
  })
  expect(batches[0]).toMatchObject({ plan: PLAN, dryWeightG: 100, pupils: [] })
})

test('a vat is kept warm for its minutes, or for as long as one likes', () => {
  const vat = { id: 'vat', title: 'Vat', kind: 'keep-warm', windowC: [35, 50], additives: [] } as const
  const kept = (stage: Plan['stages'][number]) =>
    checklist({
      plan: { title: 'Vat', stages: [stage] },
      runs: [run('vat', 0, null)],
      events: [],
      nowMs: min(5),
      coolsToMs: null,
    })
  expect(kept({ ...vat, minutes: 90 })).toMatchObject({ task: 'keep-warm', untilMs: min(90) })
  expect(kept(vat)).toMatchObject({ task: 'keep-warm', untilMs: null })
})

import type { Stage } from '#core/plan/plan'
import type { AlarmMessage, NoticeMessage, PotLive, StoveLive } from '#core/wire/live'
import { MADDER_PLAN } from '../kit/page-stove.ts'

/** A pot in its mordant bath, holding well; every value invented. */
export const potAt = (nowMs: number, change: Partial<PotLive> = {}): PotLive => ({
  potId: 'heron',
  title: 'Heron',
  litres: 20,
  dialMax: 10,
  probe: 'heron',
  tempC: 83,
  rateCPerMin: 0.1,
  isRateSettling: false,
  lastReadingMs: nowMs,
  lastReadingC: 83,
  periodMs: 1000,
  dial: 3.5,
  lid: 'on',
  goodsIn: true,
  stageStartedMs: nowMs - 3_600_000,
  hold: null,
  forecast: null,
  batch: { id: 7, title: 'Marl, lot 7' },
  stage: MADDER_PLAN.stages[0] ?? null,
  stages: [],
  ...change,
})

export const stoveOf = (nowMs: number, change: Partial<StoveLive> = {}): StoveLive => ({
  atMs: nowMs,
  pots: [potAt(nowMs)],
  alarms: [],
  lastId: 40,
  listeners: 1,
  trouble: null,
  ...change,
})

export const alarmOf = (id: number, change: Partial<AlarmMessage> = {}): AlarmMessage => ({
  id,
  alarmId: 3,
  alarm: 'above-ceiling',
  urgency: 'at-once',
  change: 'raised',
  state: 'unacknowledged',
  pot: 'heron',
  batch: 7,
  stage: 'mordant',
  tempC: 90.4,
  limitC: 90,
  sinceAt: '2026-03-03T10:00:00.000Z',
  raisedAt: '2026-03-03T10:00:05.000Z',
  clearedAt: null,
  acknowledgedAt: null,
  acknowledgedBy: null,
  text: 'Heron: over its ceiling',
  ...change,
})

export const noticeOf = (id: number, atMs: number): NoticeMessage => ({
  id,
  notice: 'turn-due',
  pot: 'heron',
  batch: 7,
  stage: 'mordant',
  at: new Date(atMs).toISOString(),
  tempC: 83,
  text: 'Heron: turn the goods.',
})

/** A stage of the invented plan by its id. */
export function stageOf(id: string): Stage {
  const stage = MADDER_PLAN.stages.find((s) => s.id === id)
  if (stage === undefined) throw new Error(`the plan has no stage ${id}`)
  return stage
}

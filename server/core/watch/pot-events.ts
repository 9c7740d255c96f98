import type { BathEvent } from '../plan/event.ts'
import type { Plan, Stage } from '../plan/plan.ts'
import { fitted } from './cooling-track.ts'
import { unsettled } from './course.ts'
import type { Happening, NoticeHappening } from './happening.ts'
import { type Goods, type PotState, goodsIn } from './pot-state.ts'
import { governing, viewOf } from './pot-view.ts'
import { disturb, excuse } from './probe-sense.ts'
import { NO_NOTES } from './stage-notes.ts'
import { type StageRun, endRun, noteGoods, noteGoodsOnlyNow, startRun } from './stage-run.ts'
import { endAlarms } from './step-alarms.ts'

export interface PotStep {
  readonly pot: PotState
  readonly happenings: readonly Happening[]
}

/** Moving a probe or filling a new bath takes about this long. */
const MOVING_MS = 120_000
/** Goods, a stir or a jug of water trouble the reading for about this long. */
const TROUBLED_MS = 60_000

const only = (pot: PotState): PotStep => ({ pot, happenings: [] })

/** What a person did or noted. A stage that the plan does not have is nothing. */
export function stepEvent(pot: PotState, event: BathEvent, atMs: number): PotStep {
  switch (event.kind) {
    case 'stage': {
      const stage = pot.plan?.stages.find((s) => s.id === event.stageId)
      return stage === undefined ? only(pot) : beginStage(pot, stage, atMs)
    }
    case 'end':
      return finishStage(pot, atMs)
    case 'goods-in':
      return only(disturbed(goodsWentIn(pot, atMs), atMs))
    case 'goods-out':
      return only(goodsCameOut(pot, atMs))
    case 'dial':
      return only({ ...pot, dial: dialNote(pot, event.dial, atMs) })
    case 'lid':
      return only({ ...pot, lid: event.lid, lidMs: atMs })
    case 'stir':
      return only(disturbed({ ...pot, notes: { ...pot.notes, turnedMs: atMs } }, atMs))
    case 'top-up':
      return only(disturbed(pot, atMs))
    case 'probe-moved':
      return only(excused(pot, atMs))
    default:
      return event satisfies never
  }
}

const disturbed = (pot: PotState, atMs: number): PotState => ({
  ...pot,
  course: unsettled(pot.course, atMs + TROUBLED_MS),
  probes: pot.probes.map((p) => disturb(p, atMs + TROUBLED_MS)),
})

const excused = (pot: PotState, atMs: number): PotState => ({
  ...pot,
  probes: pot.probes.map((p) => excuse(p, atMs + MOVING_MS)),
})

function dialNote(pot: PotState, dial: number, atMs: number): PotState['dial'] {
  const before = pot.dial?.dial ?? 0
  const onSinceMs = dial === 0 ? null : (pot.dial?.onSinceMs ?? atMs)
  const raisedMs = dial > before ? atMs : dial < before ? null : (pot.dial?.raisedMs ?? null)
  return { dial, notedMs: atMs, raisedMs, onSinceMs }
}

function goodsWentIn(pot: PotState, atMs: number): PotState {
  const goods: Goods = { kind: 'in', inMs: atMs }
  if (pot.run === null || pot.goods.kind === 'in') return { ...pot, goods }
  const late = pot.goods.kind === 'taken-in'
  const run = late ? noteGoodsOnlyNow(pot.run, atMs) : noteGoods(pot.run, atMs, true)
  const notes = late ? { ...pot.notes, holdStarted: false, holdDone: false, paused: false } : pot.notes
  return { ...pot, goods, run, notes }
}

function goodsCameOut(pot: PotState, atMs: number): PotState {
  const goods: Goods = { kind: 'out', inMs: pot.goods.inMs }
  return { ...pot, goods, run: pot.run === null ? null : noteGoods(pot.run, atMs, false) }
}

function beginStage(pot: PotState, stage: Stage, atMs: number): PotStep {
  const { pot: closed, happenings } = finishStage(pot, atMs)
  const probe = governing(closed, atMs)
  const blind = probe !== null && probe.place.kind !== 'in'
  const before = blind ? null : (probe?.last ?? null)
  const run = { ...startRun(stage, atMs, before, goodsIn(closed)), blind }
  // A cool-down goes on in the same bath; any other stage may begin in a new one.
  const ready = stage.kind === 'cool' ? closed : excused(closed, atMs)
  const next = { ...ready, run, notes: NO_NOTES }
  return { pot: next, happenings: [...happenings, stageStarted(next, stage, atMs)] }
}

const stageStarted = (pot: PotState, stage: Stage, atMs: number): NoticeHappening => ({
  kind: 'notice',
  notice: 'stage-started',
  atMs,
  potId: pot.potId,
  stageId: stage.id,
  tempC: viewOf(pot, atMs).tempC,
})

/** The curve of a cool-down through all of its readings, for the record. */
const withLastFit = (pot: PotState, run: StageRun, atMs: number): StageRun =>
  run.cooling === null ? run : { ...run, cooling: fitted(run.cooling, atMs, pot) }

/** Its alarms end with it. */
export function finishStage(pot: PotState, atMs: number): PotStep {
  if (pot.run === null) return only(pot)
  const happenings = endAlarms(viewOf(pot, atMs))
  const ended = [...pot.ended, endRun(withLastFit(pot, pot.run, atMs), atMs)]
  return { pot: { ...pot, run: null, ended, alarms: {}, notes: NO_NOTES }, happenings }
}

/** A batch is put on the pot: what was there before is over. */
export function stepBatch(
  pot: PotState,
  batch: { readonly batchId: number; readonly plan: Plan; readonly goodsIn?: boolean },
  atMs: number,
): PotStep {
  const { pot: closed, happenings } = finishStage(pot, atMs)
  const kind = batch.goodsIn === undefined ? 'taken-in' : batch.goodsIn ? 'in' : 'out'
  const { batchId, plan } = batch
  const next: PotState = { ...closed, batchId, plan, ended: [], goods: { kind, inMs: null } }
  return { pot: next, happenings }
}

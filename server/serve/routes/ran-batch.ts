import type { Plan, Stage } from '#core/plan/plan'
import { correctionSince } from '#core/batch/correction-since'
import { dyeBathOf } from '#core/batch/dye-bath'
import type { RanBatch } from '#core/batch/facts-of-batch'
import { timeMeanC } from '#core/batch/trace-facts'
import { type Gathered, gatherReport } from '../../report/gather-report.ts'
import { notFound } from '../http/problem.ts'
import type { Studio } from '../studio.ts'
import { byProbe } from './probes.ts'

/**
 * Points of each stage's trace for comparing: a hold is looked at by about its minutes, a night's cool-down by its
 * course. The lowest and highest of each slot stand at their own times, so that no peak is lost.
 */
const pointsOf = (stage: Stage | undefined): number => (stage?.kind === 'hold' ? 300 : 120)

/** A batch with what it takes to compare it. */
export async function ranBatch(
  studio: Studio,
  id: number,
): Promise<{ readonly ran: RanBatch; readonly gathered: Gathered }> {
  const nowMs = studio.clock.nowMs()
  const gathered = await gatherReport(studio.store, id, nowMs, { pointsOf })
  if (gathered === null) throw notFound(`batch ${id}`)
  const { report } = gathered
  const runs = report.stages.map(({ run, trace }) => ({
    stageId: run.stageId,
    pot: report.potTitles[run.potId] ?? run.potId,
    probe: run.probe,
    startedMs: run.startedMs,
    endedMs: run.endedMs,
    outcome: run.outcome,
    trace,
    gapMs: gapOf(run.startedMs, run.endedMs ?? nowMs, pointsOf(stageOf(report.batch.plan, run.stageId))),
  }))
  const { title, plan, dryWeightG, events } = report.batch
  const ran = {
    title,
    plan,
    dryWeightG,
    bathDryG: report.bathDryG,
    record: report.record,
    runs,
    events,
    correctionC: 0,
  }
  return { ran: { ...ran, correctionC: await sinceCorrected(studio, ran, nowMs) }, gathered }
}

const stageOf = (plan: Plan, id: string): Stage | undefined => plan.stages.find((stage) => stage.id === id)

/** Two slots of a thinned trace may lie this far apart without a gap between them; a minute for a whole one. */
const gapOf = (fromMs: number, toMs: number, points: number): number =>
  Math.max(60_000, (2.5 * (toMs - fromMs)) / (points / 2))

async function sinceCorrected(studio: Studio, ran: RanBatch, nowMs: number): Promise<number> {
  const run = dyeBathOf(ran.plan, ran.runs)?.run
  const meanC = run === undefined ? null : timeMeanC(run.trace, run.gapMs)
  if (run === undefined || run.probe === null || meanC === null) return 0
  const corrections = byProbe(await studio.store.probes.corrections()).get(run.probe) ?? []
  return correctionSince(corrections, meanC, run.startedMs, nowMs)
}

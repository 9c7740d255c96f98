import type { StageOutcome } from '../plan/outcome.ts'
import type { Plan, Stage } from '../plan/plan.ts'
import { isMordant } from './additive-roles.ts'
import type { AdditiveFact, BatchFacts } from './batch-facts.ts'
import type { NotedEvent } from './progress.ts'
import type { CurrentRecord } from './current-record.ts'
import { type DyeBath, dyeBathOf } from './dye-bath.ts'
import { type Trace, traceFacts } from './trace-facts.ts'

/** A stage as it ran, with its trace. */
export interface RanStage {
  readonly stageId: string
  readonly pot: string
  readonly probe: string | null
  readonly startedMs: number
  readonly endedMs: number | null
  readonly outcome: StageOutcome | null
  readonly trace: Trace
  /** Longer than this between two of its points is a gap; left out: a minute. More for a thinned trace. */
  readonly gapMs?: number
}

export interface RanBatch {
  readonly title: string
  readonly plan: Plan
  readonly dryWeightG: number | null
  /** Of all lots in its bath, grams: what was weighed was weighed for them all. Left out: it lay there alone. */
  readonly bathDryG?: number | null
  readonly record: CurrentRecord
  readonly runs: readonly RanStage[]
  readonly events: readonly NotedEvent[]
  /** What today's correction adds to the dye bath's mean; 0 when nothing changed. */
  readonly correctionC: number
}

/** The facts of a batch for comparing, taken from its dye bath: the last hold with goods that has a dye in it. */
export function factsOfBatch(batch: RanBatch): BatchFacts {
  const { record } = batch
  const bath = dyeBathOf(batch.plan, batch.runs)
  return withoutUnknown({
    title: batch.title,
    fibre: record.goods.fibre ?? batch.plan.fibre,
    goods: record.goods.source ?? record.goods.what,
    dryWeightG: record.goods.dryWeightG ?? batch.dryWeightG ?? undefined,
    burner: record.equipment.burner,
    lid: record.equipment.lid,
    probePlace: record.equipment.probePlace,
    water: record.water,
    mordantLot: record.preparations.at(-1)?.body.lot,
    mordantAgeDays: mordantAgeDays(batch, bath?.run),
    dyeBathUse: record.dyeBath.use,
    ph: record.phs.at(-1)?.body.ph,
    probeCorrectionC: batch.correctionC,
    additives: additiveFacts(batch),
    spotChecks: record.checks.map(({ body }) => ({ place: body.place, tempC: body.tempC })),
    ...(bath === null ? {} : bathFacts(batch, bath)),
  })
}

type DyeBathRun = DyeBath<RanStage>

type Loose<T> = { readonly [K in keyof T]: T[K] | undefined }

/** Fields that are `undefined` are left out: unknown is not a value. */
const withoutUnknown = (facts: Loose<BatchFacts>): BatchFacts =>
  Object.fromEntries(
    Object.entries(facts).filter(([, value]) => value !== undefined),
  ) as unknown as BatchFacts

const minutes = (seconds: number | undefined) => (seconds === undefined ? undefined : seconds / 60)

function bathFacts(batch: RanBatch, { run, stage }: DyeBathRun): Partial<Loose<BatchFacts>> {
  const trace = traceFacts(run.trace, stage.windowC[0], run.gapMs)
  const bins = run.outcome?.bins ?? null
  return {
    pot: run.pot,
    probe: run.probe ?? undefined,
    liquorRatio: stage.liquorRatio,
    ceilingC: stage.ceilingC,
    heatUpMin: trace.heatUpMin ?? undefined,
    heatUpCPerMin: trace.heatUpCPerMin ?? undefined,
    peakC: trace.peakC ?? undefined,
    meanC: trace.meanC ?? undefined,
    inWindowMin: minutes(bins?.inWindowS),
    aboveWindowMin: minutes(bins === null ? undefined : bins.aboveWindowS + bins.aboveCeilingS),
    belowWindowMin: minutes(bins?.belowWindowS),
    stayedInMin: stayedInMin(batch, run),
  }
}

/** From goods-in to goods-out; not noted: from the begin of the bath to the end of the cool-down after it. */
function stayedInMin(batch: RanBatch, bath: RanStage): number | undefined {
  const inAt = batch.events.find(({ event, atMs }) => event.kind === 'goods-in' && atMs >= bath.startedMs)
  const fromMs = inAt?.atMs ?? bath.startedMs
  const outAt = batch.events.find(({ event, atMs }) => event.kind === 'goods-out' && atMs > fromMs)
  const toMs = outAt?.atMs ?? lastBathEndMs(batch, bath)
  return toMs === null ? undefined : (toMs - fromMs) / 60_000
}

function lastBathEndMs(batch: RanBatch, bath: RanStage): number | null {
  const cool = batch.runs.find(
    (run) => run.startedMs > bath.startedMs && stageOf(batch, run)?.kind === 'cool',
  )
  return (cool ?? bath).endedMs
}

const stageOf = (batch: RanBatch, run: RanStage): Stage | undefined =>
  batch.plan.stages.find((stage) => stage.id === run.stageId)

const DAY_MS = 86_400_000

/** Days from the end of the mordant, in this batch or as the preparation says, to the begin of the dye bath. */
function mordantAgeDays(batch: RanBatch, bath: RanStage | undefined): number | undefined {
  if (bath === undefined) return undefined
  const own = batch.runs.findLast(
    (run) => run !== bath && stageOf(batch, run)?.additives.some((a) => isMordant(a.name)) === true,
  )
  const doneMs = own?.endedMs ?? batch.record.preparations.at(-1)?.body.doneMs
  return doneMs === undefined ? undefined : Math.max(0, (bath.startedMs - doneMs) / DAY_MS)
}

function additiveFacts(batch: RanBatch): readonly AdditiveFact[] {
  const dryG = batch.bathDryG ?? batch.record.goods.dryWeightG ?? batch.dryWeightG
  return batch.plan.stages.flatMap((stage) =>
    stage.additives.map((additive): AdditiveFact => {
      const weighed = batch.record.weighings.findLast(
        ({ body }) => body.stageId === stage.id && body.additive === additive.name,
      )?.body
      const used = weighed === undefined || dryG === null ? undefined : (weighed.weighedG / dryG) * 100
      return {
        name: additive.name,
        ...(weighed?.lot === undefined ? {} : { lot: weighed.lot }),
        ...('percentWof' in additive ? { plannedPercent: additive.percentWof } : {}),
        ...(used === undefined ? {} : { usedPercent: used }),
      }
    }),
  )
}

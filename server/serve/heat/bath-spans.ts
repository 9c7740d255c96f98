import type { Stage } from '#core/plan/plan'
import type { StoredBatch } from '../../store/batches.ts'

/** A stretch in which one fill of water stood in a pot. */
export interface BathSpan {
  /** `null`: a guided evening. */
  readonly batchId: number | null
  readonly fromMs: number
  readonly toMs: number
  readonly runs: readonly SpanRun[]
  /** Water in the pot then, where that was kept. */
  readonly litres: number | null
  /** When other water than this batch's last stood in the pot: a lid noted before that says nothing of this fill. */
  readonly notedSinceMs?: number
}

export interface SpanRun {
  readonly stage: Stage | null
  readonly probe: string
  readonly startedMs: number
  readonly endedMs: number
}

/** A cool-down that begins this soon after a stage is still the same bath, ms. */
const SAME_BATH_MS = 10 * 60_000
/** Shorter tells nothing, ms. */
const LEAST_MS = 15 * 60_000

/** The fills of one pot in a batch, ended stages only. Each heated or soaked stage is a fill; what cools belongs to it. */
export function bathSpans(batch: StoredBatch, potId: string): readonly BathSpan[] {
  const spans: { runs: SpanRun[]; litres: number | null }[] = []
  for (const { stageId, potId: pot, probe, startedMs, endedMs, litres = null } of batch.stages) {
    const stage = batch.plan.stages.find((s) => s.id === stageId)
    if (pot !== potId || probe === null || endedMs === null || stage === undefined || stage.kind === 'rest')
      continue
    const run = { stage, probe, startedMs, endedMs }
    const last = spans.at(-1)?.runs.at(-1)
    const goesOn = stage.kind === 'cool' && last !== undefined && startedMs - last.endedMs <= SAME_BATH_MS
    if (goesOn) spans.at(-1)!.runs.push(run)
    else spans.push({ runs: [run], litres })
  }
  return spans
    .map(({ runs, litres }) => ({
      batchId: batch.id,
      fromMs: runs[0]!.startedMs,
      toMs: runs.at(-1)!.endedMs,
      runs,
      litres,
    }))
    .filter((span) => span.toMs - span.fromMs >= LEAST_MS)
}

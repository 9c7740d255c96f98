import { dyeBathOf } from '#core/batch/dye-bath'
import { type RanBatch, factsOfBatch } from '#core/batch/facts-of-batch'
import { type Difference, rankDifferences } from '#core/batch/rank-differences'
import type { Studio } from '../studio.ts'
import { ranBatch } from './ran-batch.ts'

export interface ComparedBatch {
  readonly id: number
  readonly title: string
  /** Goods-in, else the begin of the dye bath, else when the batch was made: the zero of the common time axis. */
  readonly zeroMs: number
  readonly windowC: readonly [low: number, high: number] | null
  /** ms since `zeroMs`, °C as corrected by today's knowledge. */
  readonly points: readonly (readonly [afterMs: number, tempC: number])[]
}

/** Lays the dye baths of two to six batches over one another and ranks what differed. */
export async function compareBatches(
  studio: Studio,
  ids: readonly number[],
): Promise<{ readonly batches: readonly ComparedBatch[]; readonly differences: readonly Difference[] }> {
  const all = await Promise.all(ids.map((id) => ranBatch(studio, id)))
  return {
    batches: all.map(({ ran, gathered }, i) => compared(ids[i]!, ran, gathered.report.batch.madeMs)),
    differences: rankDifferences(all.map(({ ran }) => factsOfBatch(ran))),
  }
}

function compared(id: number, ran: RanBatch, madeMs: number): ComparedBatch {
  const bath = dyeBathOf(ran.plan, ran.runs)
  const startedMs = bath?.run.startedMs ?? madeMs
  const goodsIn = ran.events.find(({ event, atMs }) => event.kind === 'goods-in' && atMs >= startedMs)
  const zeroMs = goodsIn?.atMs ?? startedMs
  const later = ran.runs.filter((run) => run.startedMs >= startedMs)
  return {
    id,
    title: ran.title,
    zeroMs,
    windowC: bath?.stage.windowC ?? null,
    points: later.flatMap((run) =>
      run.trace.map(([atMs, tempC]) => [atMs - zeroMs, tempC + ran.correctionC] as const),
    ),
  }
}

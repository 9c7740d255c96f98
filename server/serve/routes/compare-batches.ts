import { dyeBathOf } from '#core/batch/dye-bath'
import { type RanBatch, factsOfBatch } from '#core/batch/facts-of-batch'
import { type Stretch, inAirOf } from '#core/batch/in-air'
import { type Difference, rankDifferences } from '#core/batch/rank-differences'
import type { BatchRecord } from '#core/wire/records'
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
  /** When the probe was in no bath, ms since `zeroMs`; `null`: it still is. Its readings then are of the air. */
  readonly inAir: readonly Stretch[]
}

/** Lays the dye baths of two to six batches over one another and ranks what differed. */
export async function compareBatches(
  studio: Studio,
  ids: readonly number[],
): Promise<{ readonly batches: readonly ComparedBatch[]; readonly differences: readonly Difference[] }> {
  const all = await Promise.all(ids.map((id) => ranBatch(studio, id)))
  return {
    batches: all.map(({ ran, gathered }, i) => compared(ids[i]!, ran, gathered.report.batch)),
    differences: rankDifferences(all.map(({ ran }) => factsOfBatch(ran))),
  }
}

function compared(id: number, ran: RanBatch, batch: Pick<BatchRecord, 'madeMs' | 'alarms'>): ComparedBatch {
  const bath = dyeBathOf(ran.plan, ran.runs)
  const startedMs = bath?.run.startedMs ?? batch.madeMs
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
    inAir: inAirOf(ran, batch.alarms).map(([fromMs, toMs]): Stretch => [
      fromMs - zeroMs,
      toMs === null ? null : toMs - zeroMs,
    ]),
  }
}

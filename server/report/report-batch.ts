import type { RecordCorrection } from '#core/batch/corrections'
import type { CurrentRecord } from '#core/batch/current-record'
import type { Trace } from '#core/batch/trace-facts'
import type { BatchRecord, StageRun } from '#core/wire/records'

/** One stage with its trace: corrected, believed readings, °C, in order of time. */
export interface ReportStage {
  readonly run: StageRun
  readonly trace: Trace
}

/** A batch with all that a report may show of it. Built by the server from the store, by a test by hand. */
export interface ReportBatch {
  readonly batch: BatchRecord
  readonly stages: readonly ReportStage[]
  readonly record: CurrentRecord
  readonly corrections: readonly RecordCorrection[]
  /** Of the pot of each stage, by its id. */
  readonly potTitles: Readonly<Record<string, string>>
  /** Dry weight of all lots in its bath, grams: what additives are reckoned and weighed for. */
  readonly bathDryG: number | null
  /** Photos of the record as `data:` addresses, by their file id; none for reports that show no photos. */
  readonly pictures: Readonly<Record<string, string>>
  /** When it was put together, Unix ms UTC. */
  readonly printedMs: number
}

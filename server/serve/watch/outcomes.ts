import type { PotBelief } from '#core/bath/pot-belief'
import type { StageOutcome } from '#core/plan/outcome'
import type { StageRun } from '#core/wire/records'
import type { StoredBatch } from '../../store/batches.ts'
import type { Store } from '../../store/store.ts'
import type { Recorder } from '../recorder.ts'
import { foldRecord } from './fold-record.ts'
import { recordInputs } from './record-inputs.ts'
import type { NewStoveWatch, StoveWatch } from './stove-watch.ts'
import type { Teller } from './teller.ts'

const LEAD_MS = 60_000

interface Stretch {
  readonly fromMs: number
  readonly toMs: number
}

export interface OutcomesParts {
  readonly store: Store
  readonly recorder: Recorder
  readonly newWatch: NewStoveWatch
  readonly lagSOf: (probe: string) => number | null
  readonly beliefOf: (potId: string, atMs: number) => PotBelief | null
  readonly teller: Teller
  /** Readings came late for a batch that has ended: what its pots taught is to be made again, too. */
  readonly onRemade: (potIds: readonly string[]) => void
}

/** What stages came to, kept with their batch. */
export class Outcomes {
  readonly #parts: OutcomesParts

  constructor(parts: OutcomesParts) {
    this.#parts = parts
  }

  /** Of batches that the watch is on now. */
  async save(batches: readonly StoredBatch[], watch: StoveWatch, nowMs: number): Promise<void> {
    for (const batch of batches) await this.#saveOf(batch, watch, nowMs)
  }

  /** Of a batch that has ended and that readings of this stretch came late for: its hours are folded again. */
  async remake(batchId: number, stretch: Stretch): Promise<void> {
    const { store, newWatch, lagSOf, beliefOf } = this.#parts
    const batch = await store.batches.get(batchId)
    const ends = (batch?.stages ?? []).flatMap((run) => (run.endedMs === null ? [] : [run.endedMs]))
    if (batch === null || ends.length < batch.stages.length) return
    const fromMs = Math.min(...batch.stages.map((run) => run.startedMs)) - LEAD_MS
    const toMs = Math.max(...ends)
    const potIds = [...new Set(batch.stages.map((run) => run.potId))]
    const watch = newWatch()
    const inputs = await recordInputs(store, { fromMs, toMs, batches: [batch], potIds, lagSOf, beliefOf })
    const found = await foldRecord(watch, inputs)
    await this.#saveOf(batch, watch, toMs)
    const alarms = found.filter((h) => h.kind === 'alarm')
    await this.#parts.teller.foundLater(batch, alarms, stretch)
    this.#parts.onRemade(potIds)
  }

  async #saveOf(batch: StoredBatch, watch: StoveWatch, nowMs: number): Promise<void> {
    for (const potId of new Set(batch.stages.map((run) => run.potId)))
      for (const outcome of watch.outcomes(potId, nowMs))
        await this.#keep(runOf(batch.stages, potId, outcome), outcome)
  }

  async #keep(run: StageRun | undefined, outcome: StageOutcome): Promise<void> {
    if (run === undefined || JSON.stringify(run.outcome) === JSON.stringify(outcome)) return
    await this.#parts.recorder.keep(() => this.#parts.store.batches.setOutcome(run.id, outcome))
  }
}

/** The run that an outcome belongs to: the same stage, begun at the same moment. */
const runOf = (runs: readonly StageRun[], potId: string, outcome: StageOutcome): StageRun | undefined =>
  runs.find(
    (r) => r.potId === potId && r.stageId === outcome.id && Math.abs(r.startedMs - outcome.startedMs) < 1500,
  )

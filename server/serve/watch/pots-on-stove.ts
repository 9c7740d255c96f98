import type { PotRecord } from '#core/wire/records'
import type { StoredBatch } from '../../store/batches.ts'
import type { Store } from '../../store/store.ts'

/** A pot with the batch whose stage is running in it. */
export interface PotOnStove {
  readonly pot: PotRecord
  readonly batch: StoredBatch | null
}

/** What stands on the stove now, read from the store after each change and then known without asking it. */
export class PotsOnStove {
  readonly #store: Store
  #pots: readonly PotOnStove[] = []

  constructor(store: Store) {
    this.#store = store
  }

  async refresh(): Promise<void> {
    const pots = await this.#store.pots.list()
    const running = await this.#store.batches.running()
    const batches = new Map<string, StoredBatch>()
    for (const run of running) {
      const batch = await this.#store.batches.get(run.batchId)
      if (batch !== null) batches.set(run.potId, batch)
    }
    this.#pots = pots.map((pot) => ({ pot, batch: batches.get(pot.id) ?? null }))
  }

  get all(): readonly PotOnStove[] {
    return this.#pots
  }

  find(potId: string): PotOnStove | undefined {
    return this.#pots.find(({ pot }) => pot.id === potId)
  }

  batchOn(potId: string): number | null {
    return this.find(potId)?.batch?.id ?? null
  }

  /** Each running batch once. */
  batches(): readonly StoredBatch[] {
    const all = this.#pots.flatMap(({ batch }) => (batch === null ? [] : [batch]))
    return all.filter((batch, i) => all.findIndex((other) => other.id === batch.id) === i)
  }
}

/** The stage that runs in a batch on this pot. */
export const runningStage = (batch: StoredBatch, potId: string) =>
  batch.stages.find((run) => run.potId === potId && run.endedMs === null) ?? null

import type { AlarmStore } from './alarms.ts'
import type { BatchStore } from './batches.ts'
import type { EntryStore } from './entries.ts'
import type { EventStore } from './events.ts'
import type { HeatStore } from './heat.ts'
import type { LookUpStore } from './look-up.ts'
import type { MessageStore } from './messages.ts'
import type { NightStore } from './night.ts'
import type { PhotoStore } from './photos.ts'
import type { PlanStore } from './plans.ts'
import type { PotStore } from './pots.ts'
import type { ProbeStore } from './probes.ts'
import type { ReadingStore } from './readings.ts'
import type { StockStore } from './stock.ts'

/**
 * Everything that is kept. A promise that resolves means: it is on disk. Whoever calls sees no engine;
 * `test/kit/store-contract.ts` says what every engine must do.
 */
export interface Store {
  readonly readings: ReadingStore
  readonly probes: ProbeStore
  readonly pots: PotStore
  readonly plans: PlanStore
  readonly batches: BatchStore
  readonly events: EventStore
  readonly entries: EntryStore
  readonly lookUp: LookUpStore
  readonly stock: StockStore
  readonly photos: PhotoStore
  readonly heat: HeatStore
  readonly night: NightStore
  readonly alarms: AlarmStore
  readonly messages: MessageStore
  /** Looks through the whole file; the answer is what was found wrong, empty when it is sound. */
  check(signal?: AbortSignal): Promise<readonly string[]>
  /** Writes a sound copy while the store is in use. The file must not exist yet. */
  backup(file: string): Promise<void>
  /**
   * All that `work` writes reaches the disk in one commit, or none of it when `work` fails. Nobody else may write
   * meanwhile: it is for filling a store that has no other user yet.
   */
  inOneCommit<T>(work: () => Promise<T>): Promise<T>
  /** Is writing possible now? Rejects with the reason when it isn't. */
  probeWrite(): Promise<void>
  close(): Promise<void>
}

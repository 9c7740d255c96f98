import type { Clock } from '#core/measure/clock'
import type { Settings } from '#core/wire/settings'
import type { Store } from '../store/store.ts'
import type { BridgeDesk } from './bridge-desk.ts'
import type { Access } from './guard/access.ts'
import type { BeliefBook } from './intake/belief-book.ts'
import type { AdviceDesk } from './heat/advice-desk.ts'
import type { BurnerBook } from './heat/burner-book.ts'
import type { EveningDesk } from './heat/evening-desk.ts'
import type { WakeDesk } from './heat/wake-desk.ts'
import type { Intake } from './intake/intake.ts'
import type { KnownProbes } from './intake/known-probes.ts'
import type { Recorder } from './recorder.ts'
import type { PotsOnStove } from './watch/pots-on-stove.ts'
import type { Teller } from './watch/teller.ts'
import type { Watching } from './watch/watching.ts'

/** Everything that answers need; put together once in `server/main.ts`. */
export interface Studio {
  readonly store: Store
  readonly clock: Clock
  readonly recorder: Recorder
  readonly beliefs: BeliefBook
  readonly probes: KnownProbes
  readonly intake: Intake
  readonly stove: PotsOnStove
  readonly watching: Watching
  readonly teller: Teller
  readonly bridges: BridgeDesk
  /** What was learned of pots on their burners. */
  readonly burners: BurnerBook
  readonly evenings: EveningDesk
  /** How to set the dials now. */
  readonly advice: AdviceDesk
  /** When the dyer gets up, and what can be lifted by then. */
  readonly wake: WakeDesk
  readonly access: Access
  /** As they are now: the file may change while the program runs. */
  readonly settings: () => Settings
  /** Pots, batches or stages changed: every page gets the whole picture. */
  readonly showStove: () => void
  /** How many pages and devices would sound an alarm now. */
  readonly listeners: () => number
  /** What a person should know now; `null` when all is well. */
  readonly trouble: () => string | null
  /** Writes a sound copy of everything. */
  readonly backup: (file: string) => Promise<void>
  readonly version: string
}

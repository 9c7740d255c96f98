import type { Logger } from 'pino'
import type { Clock } from '#core/measure/clock'
import type { WatchSettings } from '#core/watch/watch-settings'
import type { Settings } from '#core/wire/settings'
import type { Message } from '../../store/messages.ts'
import type { Store } from '../../store/store.ts'
import type { Kept } from '../../tell/kept.ts'
import type { BurnerBook } from '../heat/burner-book.ts'
import { personOf } from '../person-of.ts'
import type { Recorder } from '../recorder.ts'
import type { Checkpoint } from './checkpoint.ts'
import { coreWatch } from './core-watch.ts'
import { DayFold } from './day-fold.ts'
import { Outcomes } from './outcomes.ts'
import type { PotsOnStove } from './pots-on-stove.ts'
import { stoveWords } from './stove-words.ts'
import { Teller } from './teller.ts'
import { Watching } from './watching.ts'

/** The house around the watch. */
export interface WatchHouse {
  readonly store: Store
  readonly clock: Clock
  readonly log: Logger
  readonly recorder: Recorder
  readonly stove: PotsOnStove
  readonly burners: BurnerBook
  readonly lagSOf: (probe: string) => number | null
  readonly settings: () => Settings
  /** Names the build of the program; what another one kept of the watch is not gone on from. */
  readonly build: string
  readonly kept: Kept<Checkpoint>
  readonly message: (message: Message) => void
  readonly onTick: (atMs: number) => void
  readonly onFailure: (error: unknown) => void
}

/** The watch over the stove, with what it tells and what it keeps. */
export function openWatch(house: WatchHouse): { readonly teller: Teller; readonly watching: Watching } {
  const { store, clock, log, recorder, stove, burners, lagSOf, settings, onTick, onFailure } = house
  const known = {
    store,
    newWatch: (kept?: string) => coreWatch(watchSettings(settings()), kept),
    lagSOf,
    beliefOf: (potId: string, atMs: number) => burners.beliefOf(potId, undefined, atMs),
  }
  const onRemade = (potIds: readonly string[]) => potIds.forEach((potId) => burners.learnSoon(potId, 0))
  const words = stoveWords(stove, () => personOf(settings()))
  const batchOn = (potId: string) => stove.batchOn(potId)
  const teller = new Teller({ store, recorder, clock, words, batchOn, tell: house.message })
  const outcomes = new Outcomes({ ...known, recorder, teller, onRemade })
  const day = new DayFold({
    ...known,
    stove,
    kept: house.kept,
    program: () => JSON.stringify([house.build, watchSettings(settings())]),
    onTrouble: (sentence) => log.warn(sentence),
  })
  const { newWatch } = known
  const watching = new Watching({ store, clock, stove, teller, newWatch, day, outcomes, onTick, onFailure })
  return { teller, watching }
}

/** What the plan file's schema lets through is what the watch takes. */
const watchSettings = ({ alarms }: Settings): WatchSettings => (alarms === undefined ? {} : { alarms })

import { deserialize, serialize } from 'node:v8'
import type { PotNumbers } from '#core/wire/live'
import {
  type StoveState,
  coolingOutcomes,
  potForecast,
  potLiftTime,
  potNumbers,
  stageOutcomes,
  startStove,
  stepStove,
} from '#core/watch/stove'
import type { WatchSettings } from '#core/watch/watch-settings'
import type { StoveWatch } from './stove-watch.ts'

/** The watch of the core, holding its state. `kept`: the state of another one, to go on from. */
export function coreWatch(settings: WatchSettings, kept?: string): StoveWatch {
  let state = kept === undefined ? startStove(settings) : takenUp(kept, settings)
  const isKnown = (potId: string) => Object.hasOwn(state.pots, potId)
  return {
    step: (input) => {
      const next = stepStove(state, input)
      state = next.state
      return next.happenings
    },
    numbers: (potId, atMs) => (isKnown(potId) ? potNumbers(state, potId, atMs) : nothingKnown(potId)),
    forecast: (potId, atMs) => (isKnown(potId) ? potForecast(state, potId, atMs) : null),
    liftTime: (potId, atMs, wake) => (isKnown(potId) ? potLiftTime(state, potId, atMs, wake) : null),
    coolings: (potId) => (isKnown(potId) ? coolingOutcomes(state, potId) : []),
    outcomes: (potId, atMs) => (isKnown(potId) ? stageOutcomes(state, potId, atMs) : []),
    kept: () => serialize(state).toString('base64'),
  }
}

/** A structured clone, because JSON has no word for "nothing seen yet": an infinite step. */
const takenUp = (kept: string, settings: WatchSettings): StoveState => ({
  ...(deserialize(Buffer.from(kept, 'base64')) as StoveState),
  settings,
})

/** A pot that was put on the stove this very moment. */
const nothingKnown = (potId: string): PotNumbers => ({
  potId,
  probe: null,
  tempC: null,
  rateCPerMin: null,
  isRateSettling: false,
  lastReadingMs: null,
  lastReadingC: null,
  periodMs: null,
  dial: null,
  lid: null,
  goodsIn: false,
  stageStartedMs: null,
  hold: null,
  forecast: null,
})

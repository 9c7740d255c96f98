import type { PotNumbers } from '#core/wire/live'
import {
  coolingOutcomes,
  potForecast,
  potNumbers,
  stageOutcomes,
  startStove,
  stepStove,
} from '#core/watch/stove'
import type { WatchSettings } from '#core/watch/watch-settings'
import type { StoveWatch } from './stove-watch.ts'

/** The watch of the core, holding its state. */
export function coreWatch(settings: WatchSettings): StoveWatch {
  let state = startStove(settings)
  const isKnown = (potId: string) => Object.hasOwn(state.pots, potId)
  return {
    step: (input) => {
      const next = stepStove(state, input)
      state = next.state
      return next.happenings
    },
    numbers: (potId, atMs) => (isKnown(potId) ? potNumbers(state, potId, atMs) : nothingKnown(potId)),
    forecast: (potId, atMs) => (isKnown(potId) ? potForecast(state, potId, atMs) : null),
    coolings: (potId) => (isKnown(potId) ? coolingOutcomes(state, potId) : []),
    outcomes: (potId, atMs) => (isKnown(potId) ? stageOutcomes(state, potId, atMs) : []),
  }
}

/** A pot that was put on the stove this very moment. */
const nothingKnown = (potId: string): PotNumbers => ({
  potId,
  probe: null,
  tempC: null,
  rateCPerMin: null,
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

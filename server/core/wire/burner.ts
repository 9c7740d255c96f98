import type { ClaimKind } from '../bath/told-claim.ts'
import type { BurnerKind, Vessel } from '../bath/vessel.ts'

/** A number with the range that holds the truth nine times in ten. */
export interface RangedAnswer {
  readonly value: number
  readonly low90: number
  readonly high90: number
}

/** How a pot behaves on its burner, as the burner's page shows it. Temperatures °C, powers W, times Unix ms. */
export interface BurnerPage {
  readonly pot: {
    readonly id: string
    readonly title: string
    readonly vessel: Vessel
    readonly probe: string | null
  }
  readonly burnerKind: BurnerKind | null
  /** Nothing was learned yet, or nothing since the burner was changed: all is guessed from the vessel. */
  readonly isGuess: boolean
  readonly roomC: number
  readonly boilingC: number
  readonly capacityKJPerC: RangedAnswer
  /** Heat that is still in the element when the dial is turned off from full, kJ, and how late it comes, s. */
  readonly storedKJ: RangedAnswer
  readonly elementLagS: RangedAnswer
  readonly dials: readonly BurnerDial[]
  /** Heat lost at some temperatures, W. */
  readonly losses: readonly {
    readonly tempC: number
    readonly lidOnW: RangedAnswer
    readonly lidOffW: RangedAnswer
  }[]
  /** Newest first. */
  readonly traces: readonly BurnerTrace[]
  /** How good forecasts have been lately. */
  readonly record: readonly ForecastRecord[]
  readonly burnerChangesMs: readonly number[]
  /** Of the newest batches, newest first. */
  readonly energy: readonly BatchEnergy[]
}

export interface BurnerDial {
  readonly dial: number
  readonly watts: RangedAnswer
  /** Where the bath settles; `null`: it boils. */
  readonly steadyLidOnC: RangedAnswer | null
  readonly steadyLidOffC: RangedAnswer | null
  /** Known well enough not to be a guess. */
  readonly isKnown: boolean
}

export interface BurnerTrace {
  readonly batchId: number | null
  readonly title: string | null
  readonly fromMs: number
  readonly toMs: number
  readonly litres: number
  /** How far the model misses the trace, °C; `null`: it held too little. */
  readonly misfitC: number | null
  readonly lid: 'noted' | 'judged-on' | 'judged-off' | null
  readonly why: 'learned' | 'no-dial' | 'too-short' | 'unlike'
}

/** One forecast and what came. `window`, `leaves`, `cool`: Unix ms; `peak`, `drift`: °C. */
export interface ForecastRecord {
  readonly kind: ClaimKind
  readonly batchId: number | null
  readonly stageId: string
  readonly madeMs: number
  readonly told: number
  readonly low90: number
  readonly high90: number
  readonly came: number
  /** It was said before anything was known of this burner. */
  readonly isGuess: boolean
  /** `live`: a page showed it then; `replayed`: it is what would have been said. */
  readonly source: 'live' | 'replayed'
}

export interface BatchEnergy {
  readonly batchId: number
  readonly title: string
  readonly kWh: number
  /** The nameplate's power is known; else the burner's efficiency is guessed. */
  readonly fromNameplate: boolean
  /** In the money of the settings' price; `null` without a price. */
  readonly cost: number | null
}

/** The course of a bath that does not exist. */
export interface WhatIfAnswer {
  readonly isGuess: boolean
  /** [seconds from now, °C, low, high] */
  readonly path: readonly (readonly [afterS: number, tempC: number, low90C: number, high90C: number])[]
  readonly reachesS: RangedSeconds | null
  readonly leavesS: number | null
  readonly passesCeilingS: number | null
  readonly coolEnoughS: RangedSeconds | null
  readonly peakC: number
  /** Where it would settle; `null`: it would boil. */
  readonly steadyC: RangedAnswer | null
  readonly boilingC: number
  /** The dial that holds the middle of the window. */
  readonly holdDial: RangedAnswer | null
}

/** `late90`: `null` when it may well not happen within the hours looked at. */
export interface RangedSeconds {
  readonly value: number
  readonly early90: number
  readonly late90: number | null
}

export interface MixingAnswer {
  readonly bathC: number
  readonly mixedC: number
}

/** The guided evening as a page shows it. */
export interface EveningAnswer {
  readonly potId: string
  readonly tempC: number | null
  readonly running: EveningRunning | null
  /** When the last evening of this pot ended, Unix ms. */
  readonly lastDoneMs: number | null
  /** Why it can't begin now; `null`: it can. */
  readonly cannot: 'no-vessel' | 'no-probe' | 'no-reading' | 'stage-running' | 'too-warm' | null
}

export interface EveningRunning {
  readonly startedMs: number
  readonly step: 'full' | 'middle' | 'low' | 'off' | 'lid-off'
  readonly set: { readonly dial: number; readonly lid: 'on' | 'off' }
  /** As last noted. */
  readonly noted: { readonly dial: number | null; readonly lid: 'on' | 'off' | null }
  /** Dial and lid are noted as they should be. */
  readonly isSet: boolean
  readonly leftMin: number
  readonly isEnough: boolean
  readonly stepsDone: number
  readonly stepsInAll: number
}

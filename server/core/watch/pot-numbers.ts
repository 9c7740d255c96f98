import type { EveningStep } from '../bath/learning-evening.ts'
import type { Lid } from '../bath/pot-model.ts'
import type { PotAdvice } from './dial-advice.ts'
import type { LiftTime } from './lift-time.ts'
import type { HoldBins } from '../plan/outcome.ts'

/** The numbers of a pot that change every second. Temperatures in °C, times Unix ms UTC. */
export interface PotNumbers {
  readonly potId: string
  readonly probe: string | null
  /** The estimate of the bath; `null` when there is no fresh reading: a page must then show no good bath. */
  readonly tempC: number | null
  readonly rateCPerMin: number | null
  /** The rate is of less than its three minutes: a probe was just hung in, or the bath made a step. Not to be shown. */
  readonly isRateSettling: boolean
  readonly lastReadingMs: number | null
  readonly lastReadingC: number | null
  /** Milliseconds between readings as learned; a page greys a reading older than three of them. */
  readonly periodMs: number | null
  readonly dial: number | null
  readonly lid: 'on' | 'off' | null
  readonly goodsIn: boolean
  readonly stageStartedMs: number | null
  readonly hold: HoldLive | null
  readonly forecast: ForecastLive | null
  /** How to set the dial; left out where nobody worked it out. */
  readonly advice?: PotAdvice | null
  /** Of a guided evening that runs at the pot; left out where nobody looked for one. */
  readonly evening?: EveningLive | null
  /** Of a cool-down, once the dyer has said when the alarm clock rings; left out where nobody worked it out. */
  readonly lift?: LiftTime | null
}

/** What the step of a guided evening asks for, and whether that is noted. */
export interface EveningLive {
  readonly step: EveningStep
  readonly dial: number
  readonly lid: Lid
  readonly isSet: boolean
}

/** `waiting`: not in the window with goods yet. */
export interface HoldLive extends HoldBins {
  readonly state: 'waiting' | 'counting' | 'paused' | 'done'
  readonly startedMs: number | null
  readonly doneMs: number | null
  /** When it will be done if the bath stays in the window. */
  readonly expectedDoneMs: number | null
  readonly nextTurnMs: number | null
  readonly outByMs: number | null
}

export interface ForecastLive {
  readonly reachesWindowMs: number | null
  readonly leavesWindowMs: number | null
  readonly reachesCoolToMs: number | null
  readonly reachesCoolTo90Ms: readonly [early: number, late: number] | null
  readonly peakC: number | null
}

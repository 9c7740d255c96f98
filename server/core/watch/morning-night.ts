import type { StageOutcome } from '../plan/outcome.ts'
import type { AlarmEntry } from './alarm-entry.ts'
import type { NoticeHappening } from './happening.ts'
import type { LiftTime } from './lift-time.ts'

/** What the night left behind, all of it plain data. Times Unix ms UTC. */
export interface Night {
  readonly fromMs: number
  readonly toMs: number
  readonly alarms: readonly AlarmEntry[]
  readonly notices: readonly NoticeHappening[]
  readonly stages: readonly NightStage[]
  /** Stretches without a believed reading in a pot where a stage ran. */
  readonly gaps: readonly NightGap[]
  readonly probes: readonly NightProbe[]
}

/** One stage that ran in the night. `cooling` only for a cool-down. */
export interface NightStage {
  readonly potId: string
  readonly batchId: number | null
  readonly stageId: string
  readonly outcome: StageOutcome
  /** Of a hold. */
  readonly windowC: readonly [low: number, high: number] | null
  readonly cooling: NightCooling | null
}

/** `timesAsFast`: as this pot should, above 1 faster; `null` where no curve without heat goes through it. */
export interface NightCooling {
  readonly coolToC: number
  readonly reachedMs: number | null
  readonly lastC: number | null
  readonly timesAsFast: number | null
  /** Held against the alarm clock of this night, where one is set and the bath still cools. */
  readonly lift?: LiftTime | null
}

export interface NightGap {
  readonly potId: string
  readonly fromMs: number
  readonly toMs: number
}

/** When the probe was last compared with a reference; `null`: never. `knownMs`: since when there is one of this name. */
export interface NightProbe {
  readonly probe: string
  readonly knownMs: number
  readonly checkedMs: number | null
}

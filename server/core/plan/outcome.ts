/**
 * What a stage came to. Seconds; every second of a hold is in exactly one bin and the bins sum to the time
 * from its begin to the end of the stage. Stages without a hold have `null` bins.
 */
export interface StageOutcome {
  readonly id: string
  readonly startedMs: number
  readonly endedMs: number
  readonly bins: HoldBins | null
  /** Corrected readings that were believed, °C; `null` when there were none. */
  readonly minC: number | null
  readonly maxC: number | null
  readonly doneMs: number | null
}

export interface HoldBins {
  readonly requiredS: number
  readonly inWindowS: number
  /** Does not include `aboveCeilingS`. */
  readonly aboveWindowS: number
  readonly belowWindowS: number
  readonly aboveCeilingS: number
  /** No reading, or the probe not in the bath: never a credit, never held against the hold. */
  readonly unknownS: number
  readonly goodsOutS: number
}

/** All seconds that a hold ran by the clock: its bins leave nothing out. */
export const clockS = (bins: HoldBins): number =>
  bins.inWindowS + bins.aboveWindowS + bins.belowWindowS + bins.aboveCeilingS + bins.unknownS + bins.goodsOutS

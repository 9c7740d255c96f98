/**
 * What can differ between two batches, told in plain values; what isn't known is left out. Built from record,
 * plan, traces and corrections of probes; compared by `rankDifferences`.
 */
export interface BatchFacts {
  readonly title: string
  readonly fibre?: string
  readonly goods?: string
  readonly dryWeightG?: number
  readonly liquorRatio?: number
  readonly pot?: string
  readonly burner?: string
  readonly lid?: string
  readonly probe?: string
  readonly probePlace?: string
  /** What has to be added to the readings of this batch to be right by today's knowledge, °C. */
  readonly probeCorrectionC?: number
  readonly water?: { readonly source?: string; readonly ph?: number; readonly hardnessMgL?: number }
  readonly mordantLot?: string
  /** From mordanting to the dye bath, days. */
  readonly mordantAgeDays?: number
  readonly additives: readonly AdditiveFact[]
  readonly ph?: number
  readonly dyeBathUse?: number
  readonly heatUpMin?: number
  readonly heatUpCPerMin?: number
  readonly peakC?: number
  readonly meanC?: number
  readonly inWindowMin?: number
  readonly aboveWindowMin?: number
  readonly belowWindowMin?: number
  /** From goods-in to goods-out, minutes; includes a night in the bath. */
  readonly stayedInMin?: number
  readonly ceilingC?: number
  readonly spotChecks: readonly { readonly place: string; readonly tempC: number }[]
}

/** What went in, in per cent of the dry weight, so that batches of different size compare. */
export interface AdditiveFact {
  readonly name: string
  readonly lot?: string
  readonly plannedPercent?: number
  readonly usedPercent?: number
}

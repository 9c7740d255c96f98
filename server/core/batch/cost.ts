/** What a batch used. Money is in whatever the studio reckons in; `null`: not known, counted as nothing. */
export interface BatchUse {
  readonly goodsCost: number | null
  readonly materials: readonly {
    readonly name: string
    readonly grams: number
    readonly pricePerKg: number | null
  }[]
  readonly energyKWh: number | null
  readonly pricePerKWh: number | null
  readonly handsOnMin: number | null
  readonly hourlyWage: number | null
}

export interface BatchCost {
  readonly goods: number
  readonly materials: number
  readonly energy: number
  readonly work: number
  readonly total: number
  /** What has no price or amount, by name: the total leaves it out, and says so. */
  readonly unknown: readonly string[]
}

/** Cost of a batch from goods, materials, energy and minutes of work. */
export function batchCost(use: BatchUse): BatchCost {
  const goods = use.goodsCost ?? 0
  const materials = use.materials.reduce((sum, m) => sum + (m.grams / 1000) * (m.pricePerKg ?? 0), 0)
  const energy = (use.energyKWh ?? 0) * (use.pricePerKWh ?? 0)
  const work = ((use.handsOnMin ?? 0) / 60) * (use.hourlyWage ?? 0)
  return { goods, materials, energy, work, total: goods + materials + energy + work, unknown: unknownOf(use) }
}

function unknownOf(use: BatchUse): readonly string[] {
  return [
    ...(use.goodsCost === null ? ['goods'] : []),
    ...use.materials.filter((m) => m.pricePerKg === null).map((m) => m.name),
    ...(use.energyKWh === null || use.pricePerKWh === null ? ['energy'] : []),
    ...(use.handsOnMin === null || use.hourlyWage === null ? ['work'] : []),
  ]
}

const JOULES_PER_KWH = 3_600_000

/**
 * Energy from the socket or the cylinder for a bath: warming, plus what it lost while it was held, over the share
 * that reaches the water. `capacityKJPerC`: 4.186 a litre and the pot. An estimate, good to a third.
 */
export function energyKWh(bath: {
  readonly capacityKJPerC: number
  readonly riseC: number
  readonly lossW: number
  readonly heldMin: number
  readonly share01: number
}): number {
  const intoWaterJ = bath.capacityKJPerC * 1000 * bath.riseC + bath.lossW * bath.heldMin * 60
  return intoWaterJ / bath.share01 / JOULES_PER_KWH
}

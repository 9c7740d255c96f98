/** One delivery of a dye, mordant or other material: colour and strength differ from lot to lot. */
export interface StockLot {
  readonly id: number
  /** As in the plans: `madder root, ground`. */
  readonly material: string
  /** The supplier's or the dyer's own mark: `R-14`. */
  readonly lot: string
  readonly harvestYear?: number
  readonly pricePerKg?: number
}

/** What happened to a lot. `counted`: weighed as it stands; it overrides what was reckoned before. */
export interface StockEvent {
  readonly kind: 'received' | 'used' | 'discarded' | 'counted'
  readonly lotId: number
  readonly atMs: number
  readonly grams: number
}

/** Grams left of each lot, by id. Events count in order of time; a lot may go under 0: then something is amiss. */
export function stockLeft(events: readonly StockEvent[]): ReadonlyMap<number, number> {
  const left = new Map<number, number>()
  for (const event of [...events].sort((a, b) => a.atMs - b.atMs))
    left.set(event.lotId, after(event, left.get(event.lotId) ?? 0))
  return left
}

function after(event: StockEvent, beforeG: number): number {
  switch (event.kind) {
    case 'received':
      return beforeG + event.grams
    case 'used':
    case 'discarded':
      return beforeG - event.grams
    case 'counted':
      return event.grams
    default:
      return event.kind satisfies never
  }
}

/** What a batch still needs of a material, stage by stage in order. */
export interface StockNeed {
  readonly stageId: string
  readonly material: string
  readonly needG: number
}

/** It will not be enough: `stageId` is the first stage that can't be weighed in full. */
export interface Shortage {
  readonly material: string
  readonly stageId: string
  readonly leftG: number
  readonly needG: number
  readonly missingG: number
}

/**
 * What runs out in the middle of the batch, said before it begins. A material that no lot is kept of is not
 * reported: whoever keeps no stock of chalk doesn't want to hear of it each time.
 */
export function shortages(
  needs: readonly StockNeed[],
  lots: readonly StockLot[],
  left: ReadonlyMap<number, number>,
): readonly Shortage[] {
  const materials = [...new Set(needs.map((need) => plainName(need.material)))]
  return materials.flatMap((material) => {
    const kept = lots.filter((lot) => plainName(lot.material) === material)
    if (kept.length === 0) return []
    const leftG = kept.reduce((sum, lot) => sum + Math.max(0, left.get(lot.id) ?? 0), 0)
    return shortageOf(
      needs.filter((need) => plainName(need.material) === material),
      leftG,
    )
  })
}

/** Of the needs of one material, in order: the stage at which it runs out, if it does. */
function shortageOf(needs: readonly StockNeed[], leftG: number): readonly Shortage[] {
  let needG = 0
  let first: StockNeed | null = null
  for (const need of needs) {
    needG += need.needG
    // Sums of decimal grams are a hair off in binary floats.
    if (first === null && needG > leftG + 1e-9) first = need
  }
  if (first === null) return []
  const { material, stageId } = first
  return [{ material, stageId, leftG, needG, missingG: needG - leftG }]
}

/** Two stages may spell one material `Madder root` and `madder root `: it lies on the shelf once. */
const plainName = (material: string): string => material.trim().toLowerCase()

import type { RecordKind } from './record-line.ts'

/** What is written down of a bath, and so holds for every lot in it; the rest is each lot's own. */
const OF_BATH: readonly RecordKind[] = ['water', 'weighing', 'dye-bath', 'equipment', 'ph', 'check']

export const isOfBath = (kind: string): boolean => OF_BATH.some((known) => known === kind)

/** Dry weight of all lots of a bath, grams; `null` while none is known. A lot without a weight adds nothing. */
export function bathDryG(lots: readonly { readonly dryWeightG: number | null }[]): number | null {
  const known = lots.flatMap(({ dryWeightG }) => (dryWeightG === null ? [] : [dryWeightG]))
  return known.length === 0 ? null : known.reduce((sum, weightG) => sum + weightG, 0)
}

/** A lot's share of what the whole bath took, 0 to 1, by its dry weight; `null` while a weight is missing. */
export function shareOfBath01(
  lots: readonly { readonly id: number; readonly dryWeightG: number | null }[],
  id: number,
): number | null {
  if (lots.length < 2) return 1
  if (lots.some(({ dryWeightG }) => dryWeightG === null)) return null
  const wholeG = bathDryG(lots) ?? 0
  const own = lots.find((lot) => lot.id === id)?.dryWeightG ?? 0
  return wholeG > 0 ? own / wholeG : null
}

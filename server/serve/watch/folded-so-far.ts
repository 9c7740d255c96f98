import type { StoveInput } from '#core/watch/stove-input'

/** When the newest reading of each probe in a folded record was taken, Unix ms. */
export function newestByProbe(inputs: readonly StoveInput[]): ReadonlyMap<string, number> {
  const newest = new Map<string, number>()
  for (const input of inputs) if (input.kind === 'reading') newest.set(input.reading.probe, input.atMs)
  return newest
}

/** Whether an input that came while the record was folded is not in it yet. */
export function isAfter(input: StoveInput, toMs: number, newest: ReadonlyMap<string, number>): boolean {
  if (input.kind !== 'reading') return input.atMs > toMs
  return input.atMs > (newest.get(input.reading.probe) ?? -Infinity)
}

const TENS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200]

/** Round values from low to high, at most `most` of them, on the smallest of `steps` that allows it. */
export function evenTicks(
  low: number,
  high: number,
  most: number,
  steps: readonly number[] = TENS,
): readonly number[] {
  const step = steps.find((s) => Math.floor(high / s) - Math.ceil(low / s) < most) ?? steps.at(-1)!
  const first = Math.ceil(low / step)
  const count = Math.max(0, Math.floor(high / step) - first + 1)
  return Array.from({ length: Math.min(count, most) }, (_, i) => Number(((first + i) * step).toFixed(6)))
}

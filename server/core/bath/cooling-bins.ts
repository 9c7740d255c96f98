export interface CoolingBin {
  readonly atMs: number
  readonly tempC: number
}

const MOST_BINS = 60

/**
 * Readings of a cool-down as at most 60 means over equal times, from the highest one on. The first tenth after
 * it is left out (at most ten minutes): there the element and the pot's wall still give and take heat.
 */
export function coolingBins(points: readonly CoolingBin[]): readonly CoolingBin[] {
  if (points.length === 0) return []
  const whole = meansOf(points, points[0]!.atMs)
  const top = whole.reduce((best, bin) => (bin.tempC > best.tempC ? bin : best))
  const leftMs = points.at(-1)!.atMs - top.atMs
  return meansOf(points, top.atMs + Math.min(600_000, leftMs / 10))
}

function meansOf(points: readonly CoolingBin[], fromMs: number): readonly CoolingBin[] {
  const widthMs = Math.max(1, (points.at(-1)!.atMs - fromMs + 1) / MOST_BINS)
  const bins: CoolingBin[] = []
  let slot = -1
  let sumMs = 0
  let sumC = 0
  let count = 0
  const close = () => {
    if (count > 0) bins.push({ atMs: sumMs / count, tempC: sumC / count })
    sumMs = sumC = count = 0
  }
  for (const point of points) {
    if (point.atMs < fromMs) continue
    const at = Math.floor((point.atMs - fromMs) / widthMs)
    if (at !== slot) close()
    slot = at
    sumMs += point.atMs
    sumC += point.tempC
    count += 1
  }
  close()
  return bins
}

/** Noise of the bins, °C, from their second differences: a smooth curve leaves nothing there. */
export function noiseC(bins: readonly CoolingBin[]): number {
  let sum = 0
  for (let i = 1; i + 1 < bins.length; i++) {
    const bend = bins[i - 1]!.tempC - 2 * bins[i]!.tempC + bins[i + 1]!.tempC
    sum += bend * bend
  }
  // The variance of a second difference of white noise is 1 + 4 + 1 times its own.
  return bins.length < 3 ? 0 : Math.sqrt(sum / (bins.length - 2) / 6)
}

import type { Point } from './hold-pieces.ts'

/** The mean of the readings of a few seconds, at the mean of their times. */
export interface ReadingMean extends Point {
  readonly count: number
}

/** Believed readings of the last twelve minutes, five seconds to a mean; the last one still grows. */
export interface ReadingMeans {
  readonly closed: readonly ReadingMean[]
  readonly open: (ReadingMean & { readonly fromMs: number }) | null
}

const MEAN_MS = 5000
const KEPT_MS = 12 * 60_000

export const NO_MEANS: ReadingMeans = { closed: [], open: null }

/** After one more believed reading, later than all before. */
export function withReading({ closed, open }: ReadingMeans, { atMs, tempC }: Point): ReadingMeans {
  if (open === null) return { closed, open: { atMs, tempC, count: 1, fromMs: atMs } }
  if (atMs - open.fromMs < MEAN_MS) {
    const count = open.count + 1
    const mean = (before: number, now: number) => before + (now - before) / count
    return { closed, open: { ...open, count, atMs: mean(open.atMs, atMs), tempC: mean(open.tempC, tempC) } }
  }
  const kept = closed.findIndex((m) => m.atMs >= atMs - KEPT_MS)
  const next = closed.slice(kept < 0 ? closed.length : kept)
  next.push(open)
  return { closed: next, open: { atMs, tempC, count: 1, fromMs: atMs } }
}

/** The mean of the readings since a moment, °C; `null`: there were none. */
export function meanSince({ closed, open }: ReadingMeans, fromMs: number): number | null {
  let [count, sumC] = [0, 0]
  const add = (mean: ReadingMean) => {
    count += mean.count
    sumC += mean.count * mean.tempC
  }
  if (open !== null) add(open)
  for (let i = closed.length - 1; i >= 0 && closed[i]!.atMs >= fromMs; i--) add(closed[i]!)
  return count === 0 ? null : sumC / count
}

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

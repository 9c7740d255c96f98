import type { Point } from './hold-pieces.ts'

/** The mean of the readings of a few seconds, at the mean of their times. */
export interface ReadingMean extends Point {
  readonly count: number
}

type Growing = ReadingMean & { readonly fromMs: number }

/** Believed readings of the last hour; all oldest first. */
export interface ReadingMeans {
  /** Of the time before the last twelve minutes, a minute to a mean. */
  readonly old: readonly Growing[]
  /** Of the last twelve minutes, five seconds to a mean. */
  readonly closed: readonly ReadingMean[]
  /** The one that still grows. */
  readonly open: Growing | null
}

const MEAN_MS = 5000
const KEPT_MS = 12 * 60_000
const OLD_MEAN_MS = 60_000
const OLD_KEPT_MS = 60 * 60_000

export const NO_MEANS: ReadingMeans = { old: [], closed: [], open: null }

/** After one more believed reading, later than all before. */
export function withReading({ old, closed, open }: ReadingMeans, { atMs, tempC }: Point): ReadingMeans {
  const now = { atMs, tempC, count: 1 }
  if (open === null) return { old, closed, open: { ...now, fromMs: atMs } }
  if (atMs - open.fromMs < MEAN_MS) return { old, closed, open: { ...open, ...joined(open, now) } }
  const kept = closed.findIndex((m) => m.atMs >= atMs - KEPT_MS)
  const firstKept = kept < 0 ? closed.length : kept
  const next = closed.slice(firstKept)
  next.push(open)
  return {
    old: firstKept === 0 ? old : aged(old, closed.slice(0, firstKept), atMs - OLD_KEPT_MS),
    closed: next,
    open: { ...now, fromMs: atMs },
  }
}

/** Both as one mean. */
function joined(a: ReadingMean, b: ReadingMean): ReadingMean {
  const count = a.count + b.count
  const mean = (of: number, and: number) => of + ((and - of) * b.count) / count
  return { count, atMs: mean(a.atMs, b.atMs), tempC: mean(a.tempC, b.tempC) }
}

function aged(old: readonly Growing[], means: readonly ReadingMean[], fromMs: number): readonly Growing[] {
  const next = old.filter((m) => m.fromMs >= fromMs)
  for (const mean of means) {
    const last = next.at(-1)
    if (last === undefined || mean.atMs - last.fromMs >= OLD_MEAN_MS)
      next.push({ ...mean, fromMs: mean.atMs })
    else next[next.length - 1] = { ...last, ...joined(last, mean) }
  }
  return next
}

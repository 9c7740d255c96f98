/** Later than this after it happened it counts as noted afterwards, ms. */
const LATE_MS = 60_000

/** Written down later than it happened by more than a minute: pages and sheets mark it. */
export const isBackDated = ({
  atMs,
  notedMs,
}: {
  readonly atMs: number
  readonly notedMs: number
}): boolean => notedMs - atMs > LATE_MS

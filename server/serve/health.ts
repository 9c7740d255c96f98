import type { Studio } from './studio.ts'

/** The watch goes round each second; after this long without it is stuck, ms. */
const STUCK_MS = 5000

export interface Health {
  readonly ok: boolean
  /** `checking` until the integrity check has run through. */
  readonly integrity: 'checking' | 'sound' | 'damaged'
  readonly storing: boolean
  readonly watching: boolean
  readonly trouble: string | null
}

export const isWatching = ({ clock, watching }: Studio): boolean =>
  clock.nowMs() - watching.lastTickMs <= STUCK_MS

export function healthOf(studio: Studio, integrity: Health['integrity']): Health {
  const watching = isWatching(studio)
  const storing = studio.recorder.trouble === null
  return {
    ok: watching && storing && integrity !== 'damaged',
    integrity,
    storing,
    watching,
    trouble: studio.trouble(),
  }
}

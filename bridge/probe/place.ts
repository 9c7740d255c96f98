import type { Clock } from '#core/measure/clock'
import { isSettledWithin } from '#core/measure/settled-within'
import type { ProbeReport } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { whereOf } from './open-source.ts'
import { NEW_LIFE, type ProbeLife, probeState, type WayState } from './probe-life.ts'
import type { Source } from './source.ts'

/** One entry of the settings at work: its source, how the way to it is, and the probes that came by it. */
export interface Place {
  readonly settings: ProbeSettings
  /** The settings as text: another text is another place. */
  readonly text: string
  source: Source | null
  way: WayState
  refused: number
  isClosed: boolean
  /** When anything last came, or the port was last opened, ms. */
  stirredMs: number
  /** How often in a row a silent port was opened anew. */
  reopenings: number
  readonly lives: Map<string, ProbeLife>
}

export const newPlace = (settings: ProbeSettings, nowMs: number): Place => ({
  settings,
  text: JSON.stringify(settings),
  source: null,
  way: { state: 'opening', sentence: 'being opened', sinceMs: nowMs, lastRefused: null },
  refused: 0,
  isClosed: false,
  stirredMs: nowMs,
  reopenings: 0,
  lives: new Map(),
})

/** What is told of its probes; of one that has none yet, of itself. */
export function reportsOf({ settings, way, refused, lives }: Place, nowMs: number): readonly ProbeReport[] {
  const silentAfterMs = settings.silentAfterS === undefined ? null : settings.silentAfterS * 1000
  const named: readonly (readonly [string, ProbeLife])[] =
    lives.size > 0 ? [...lives] : [[settings.name, NEW_LIFE]]
  return named.map(([probe, life]) => {
    const { state, sentence } = probeState(life, way, nowMs, silentAfterMs)
    const { lastAtMs, lastRawC, readings, batteryPercent } = life
    const where = whereOf(settings)
    const source = settings.name
    return { source, probe, state, sentence, where, lastAtMs, lastRawC, readings, refused, batteryPercent }
  })
}

/** How long it may be silent, ms: `leastMs`, and slow probes ten of their own periods. */
export const silenceMs = ({ lives }: Place, leastMs: number): number =>
  Math.max(leastMs, ...[...lives.values()].map((life) => 10 * (life.periodMs ?? 0)))

/** What a driver may take to let go of its port, ms. */
const LET_GO_MS = 2000

/** Nothing is heard of it any more; whether its source has let go of what it held. */
export function closePlace(place: Place, clock: Clock): Promise<boolean> {
  place.isClosed = true
  return closeSource(place, clock)
}

/** A driver that hangs is waited for so long and no longer: other probes and the end of the bridge don't hang on it. */
export const closeSource = ({ source }: Place, clock: Clock): Promise<boolean> =>
  source === null ? Promise.resolve(true) : isSettledWithin(clock, source.close(), LET_GO_MS)

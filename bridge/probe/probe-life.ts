import type { Sample } from '#core/measure/reading'
import type { ProbeReport } from '#core/wire/bridge-link'

/** What is known of one probe since the bridge started. */
export interface ProbeLife {
  readonly lastAtMs: number | null
  readonly lastRawC: number | null
  readonly lastFault: string | null
  readonly readings: number
  /** Usual time between readings, ms; `null` until two have come. */
  readonly periodMs: number | null
  /** What its own last will said, until it speaks again. */
  readonly gone: string | null
  readonly batteryPercent: number | null
}

export const NEW_LIFE: ProbeLife = {
  lastAtMs: null,
  lastRawC: null,
  lastFault: null,
  readings: 0,
  periodMs: null,
  gone: null,
  batteryPercent: null,
}

export function lifeAfter(life: ProbeLife, sample: Sample): ProbeLife {
  return {
    ...life,
    lastAtMs: sample.atMs,
    lastRawC: sample.kind === 'temp' ? sample.rawC : life.lastRawC,
    lastFault: sample.kind === 'fault' ? `${sample.fault}: ${sample.found}` : null,
    readings: life.readings + 1,
    periodMs: periodAfter(life, sample.atMs),
    gone: null,
  }
}

/** One gap moves it by a tenth at most, so that a silence does not become the rhythm. */
function periodAfter({ lastAtMs, periodMs }: ProbeLife, atMs: number): number | null {
  if (lastAtMs === null) return null
  const gapMs = atMs - lastAtMs
  return periodMs === null ? gapMs : periodMs + 0.1 * (Math.min(gapMs, 2 * periodMs + 1) - periodMs)
}

/** The way to a probe, as its source last told. */
export interface WayState {
  readonly state: 'opening' | 'open' | 'trouble'
  readonly sentence: string
  readonly sinceMs: number
  /** The last thing that came and was no reading. */
  readonly lastRefused: string | null
}

/** Before the first reading a probe may take this long, ms: some boards start slowly. */
const FIRST_READING_MS = 30_000
/** No probe is called silent sooner, ms. */
const LEAST_SILENCE_MS = 5000

/** State of one probe and the sentence that goes with it. `silentAfterMs`: from the settings, else by its own rhythm. */
export function probeState(
  life: ProbeLife,
  way: WayState,
  nowMs: number,
  silentAfterMs: number | null,
): Pick<ProbeReport, 'state' | 'sentence'> {
  if (way.state === 'trouble') return { state: 'trouble', sentence: way.sentence }
  if (life.gone !== null) return { state: 'silent', sentence: life.gone }
  if (life.lastAtMs === null) return unheard(way, nowMs, silentAfterMs)
  const ageMs = nowMs - life.lastAtMs
  const limitMs = silentAfterMs ?? Math.max(LEAST_SILENCE_MS, 3 * (life.periodMs ?? LEAST_SILENCE_MS))
  if (ageMs > limitMs) return { state: 'silent', sentence: `no reading for ${seconds(ageMs)}${hint(way)}` }
  if (life.lastFault !== null)
    return { state: 'trouble', sentence: `it reports ${life.lastFault}; look at its wires` }
  return { state: 'ok', sentence: 'readings come' }
}

function unheard(
  way: WayState,
  nowMs: number,
  silentAfterMs: number | null,
): Pick<ProbeReport, 'state' | 'sentence'> {
  const waitedMs = nowMs - way.sinceMs
  if (way.state === 'opening' || waitedMs <= (silentAfterMs ?? FIRST_READING_MS)) {
    return { state: 'waiting', sentence: `waiting for the first reading${hint(way)}` }
  }
  return { state: 'silent', sentence: `no reading since it was opened ${seconds(waitedMs)} ago${hint(way)}` }
}

const hint = ({ lastRefused }: WayState): string =>
  lastRefused === null ? '' : `; what came was ${lastRefused}`

const seconds = (ms: number): string =>
  ms < 120_000 ? `${Math.round(ms / 1000)} s` : `${Math.round(ms / 60_000)} min`

import type { ProbeLimit } from '#core/wire/bridge-link'

/**
 * What a bridge does about a bath while the server is silent. It knows no plan and no estimate, only the ceilings
 * that the server last told it, and calls when a probe reads over one.
 */
export interface LoneWatch {
  /** When the server last said that its watch goes round; at first when the bridge began to listen. Unix ms. */
  readonly heardMs: number
  readonly limits: readonly ProbeLimit[]
  /** Readings over the limit that came one after the other, by probe. */
  readonly over: ReadonlyMap<string, Over>
  /** Whether it was said already that nobody watches. */
  readonly isAlone: boolean
  readonly lastCallMs: number | null
}

/** `atMs` and `tempC` are of the newest. */
interface Over {
  readonly count: number
  readonly atMs: number
  readonly tempC: number
}

export type LoneInput =
  /** The server answered and its watch goes round. */
  | { readonly kind: 'heard'; readonly atMs: number }
  | { readonly kind: 'limits'; readonly limits: readonly ProbeLimit[] }
  | { readonly kind: 'reading'; readonly probe: string; readonly atMs: number; readonly tempC: number }
  | { readonly kind: 'tick'; readonly atMs: number }

/**
 * `alone`: say that nobody watches. `call`: a bath is over its ceiling, sound. `hush`: somebody watches again, or
 * it is under it again.
 */
export type LoneEffect =
  | { readonly kind: 'alone'; readonly silentS: number; readonly titles: readonly string[] }
  | { readonly kind: 'call'; readonly limit: ProbeLimit; readonly tempC: number }
  | { readonly kind: 'hush'; readonly why: 'server-back' | 'under-limit' }

export interface LoneStep {
  readonly state: LoneWatch
  readonly effects: readonly LoneEffect[]
}

/** Longer than any restart of the server by its supervisor. */
const ALONE_MS = 60_000
/** One reading alone may be a probe's start-up value; two running are a bath, as in the server's own rule. */
const ENOUGH = 2
/** An older reading says nothing about now; the same figure as for live alarms. */
const FRESH_MS = 30_000
const REPEAT_MS = 30_000

export const startListening = (atMs: number): LoneWatch => ({
  heardMs: atMs,
  limits: [],
  over: new Map(),
  isAlone: false,
  lastCallMs: null,
})

/** Next state and what to do now. Pure: the only times it knows are those of the input. */
export function stepLoneWatch(state: LoneWatch, input: LoneInput): LoneStep {
  switch (input.kind) {
    case 'heard':
      return heard(state, input.atMs)
    case 'limits':
      return { state: { ...state, limits: input.limits }, effects: [] }
    case 'reading':
      return { state: { ...state, over: counted(state, input) }, effects: [] }
    case 'tick':
      return tick(state, input.atMs)
    default:
      return input satisfies never
  }
}

function heard(state: LoneWatch, atMs: number): LoneStep {
  const effects: readonly LoneEffect[] = state.isAlone ? [{ kind: 'hush', why: 'server-back' }] : []
  return { state: { ...state, heardMs: atMs, isAlone: false, lastCallMs: null }, effects }
}

function counted(state: LoneWatch, reading: LoneInput & { kind: 'reading' }): ReadonlyMap<string, Over> {
  const limit = state.limits.find((l) => l.probe === reading.probe)
  const others = [...state.over].filter(([probe]) => probe !== reading.probe)
  if (limit === undefined || !(reading.tempC > limit.rawC)) return new Map(others)
  const count = (state.over.get(reading.probe)?.count ?? 0) + 1
  return new Map([...others, [reading.probe, { count, atMs: reading.atMs, tempC: reading.tempC }]])
}

function tick(state: LoneWatch, atMs: number): LoneStep {
  const silentMs = atMs - state.heardMs
  if (silentMs < ALONE_MS || state.limits.length === 0) return { state, effects: [] }
  const calls = callsAt(state, atMs)
  const isDue = state.lastCallMs === null || atMs - state.lastCallMs >= REPEAT_MS
  const isUnder = calls.length === 0 && state.lastCallMs !== null
  const effects: readonly LoneEffect[] = [
    ...(state.isAlone ? [] : [aloneWith(state, silentMs)]),
    ...(isDue ? calls : []),
    ...(isUnder ? [{ kind: 'hush', why: 'under-limit' } as const] : []),
  ]
  const lastCallMs = calls.length === 0 ? null : isDue ? atMs : state.lastCallMs
  return { state: { ...state, isAlone: true, lastCallMs }, effects }
}

const aloneWith = ({ limits }: LoneWatch, silentMs: number): LoneEffect => ({
  kind: 'alone',
  silentS: Math.round(silentMs / 1000),
  titles: limits.map((limit) => limit.title),
})

const callsAt = (state: LoneWatch, atMs: number): readonly LoneEffect[] =>
  state.limits.flatMap((limit): readonly LoneEffect[] => {
    const over = state.over.get(limit.probe)
    if (over === undefined || over.count < ENOUGH || atMs - over.atMs > FRESH_MS) return []
    return [{ kind: 'call', limit, tempC: over.tempC }]
  })

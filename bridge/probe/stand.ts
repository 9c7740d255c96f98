import type { Sample } from '#core/measure/reading'
import type { ProbeReport } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { openSource, whereOf } from './open-source.ts'
import { lifeAfter, NEW_LIFE, type ProbeLife, probeState, type WayState } from './probe-life.ts'
import type { Sink, Source, World } from './source.ts'

export interface StandParts {
  readonly world: World
  readonly onSample: (sample: Sample) => void
  /** The state of a probe may have changed. */
  readonly onChange: () => void
  /** Something to be said in the log: one sentence. */
  readonly onSay: (sentence: string) => void
}

interface Place {
  readonly settings: ProbeSettings
  readonly text: string
  source: Source | null
  way: WayState
  refused: number
  isClosed: boolean
  readonly lives: Map<string, ProbeLife>
}

/** No source carries more probes: a wildcard topic on a busy broker would grow without end. */
const MAX_PROBES = 200

/** All probes of this bridge: opens and closes their sources as the settings change, and knows how each is. */
export class Stand {
  readonly #parts: StandParts
  readonly #places = new Map<string, Place>()
  readonly #lastAtMs = new Map<string, number>()

  constructor(parts: StandParts) {
    this.#parts = parts
  }

  /** Closes what is gone or changed, opens what is new; the rest goes on undisturbed. */
  async apply(probes: readonly ProbeSettings[]): Promise<void> {
    const wanted = new Map(probes.map((p) => [p.name, JSON.stringify(p)]))
    const ending = [...this.#places.values()].filter(
      (place) => wanted.get(place.settings.name) !== place.text,
    )
    for (const place of ending) this.#places.delete(place.settings.name)
    await Promise.all(ending.map(close))
    for (const settings of probes) if (!this.#places.has(settings.name)) this.#open(settings)
    this.#parts.onChange()
  }

  reports(): readonly ProbeReport[] {
    return [...this.#places.values()].flatMap((place) => this.#reportsOf(place))
  }

  get settings(): readonly ProbeSettings[] {
    return [...this.#places.values()].map((place) => place.settings)
  }

  async close(): Promise<void> {
    const all = [...this.#places.values()]
    this.#places.clear()
    await Promise.all(all.map(close))
  }

  #open(settings: ProbeSettings): void {
    const way: WayState = {
      state: 'opening',
      sentence: 'being opened',
      sinceMs: this.#nowMs(),
      lastRefused: null,
    }
    const place: Place = {
      settings,
      text: JSON.stringify(settings),
      source: null,
      way,
      refused: 0,
      isClosed: false,
      lives: new Map(),
    }
    this.#places.set(settings.name, place)
    place.source = openSource(settings, this.#sinkOf(place), this.#parts.world)
  }

  #sinkOf(place: Place): Sink {
    const unless = <A extends unknown[]>(fn: (...args: A) => void) => {
      return (...args: A) => {
        if (!place.isClosed) fn(...args)
      }
    }
    return {
      sample: unless((sample) => this.#sample(place, sample)),
      refused: unless((why) => {
        place.refused++
        place.way = { ...place.way, lastRefused: why }
      }),
      way: unless((state, sentence) => this.#way(place, state, sentence)),
      gone: unless((probe, sentence) => this.#live(place, probe, (life) => ({ ...life, gone: sentence }))),
      battery: unless((probe, percent) =>
        this.#live(place, probe, (life) => ({ ...life, batteryPercent: percent })),
      ),
    }
  }

  /** Two readings of one probe never have one time, nor go back: the bridge's own clock gives the order. */
  #sample(place: Place, sample: Sample): void {
    const lastMs = this.#lastAtMs.get(sample.probe) ?? -Infinity
    const stamped = { ...sample, atMs: Math.max(Math.round(sample.atMs), lastMs + 1) }
    if (!this.#live(place, sample.probe, (life) => lifeAfter(life, stamped))) return
    this.#lastAtMs.set(sample.probe, stamped.atMs)
    this.#parts.onSample(stamped)
  }

  #live(place: Place, probe: string, next: (life: ProbeLife) => ProbeLife): boolean {
    const life = place.lives.get(probe) ?? NEW_LIFE
    if (life === NEW_LIFE && place.lives.size >= MAX_PROBES) {
      place.refused++
      return false
    }
    place.lives.set(probe, next(life))
    return true
  }

  #way(place: Place, state: 'open' | 'trouble', sentence: string): void {
    if (place.way.state === state && place.way.sentence === sentence) return
    place.way = { state, sentence, sinceMs: this.#nowMs(), lastRefused: null }
    this.#parts.onSay(`${place.settings.name}: ${sentence}`)
    this.#parts.onChange()
  }

  #reportsOf(place: Place): readonly ProbeReport[] {
    const { settings, way, refused, lives } = place
    const silentAfterMs = settings.silentAfterS === undefined ? null : settings.silentAfterS * 1000
    const named: readonly (readonly [string, ProbeLife])[] =
      lives.size > 0 ? [...lives] : [[settings.name, NEW_LIFE]]
    return named.map(([probe, life]) => {
      const { state, sentence } = probeState(life, way, this.#nowMs(), silentAfterMs)
      const { lastAtMs, lastRawC, readings, batteryPercent } = life
      const where = whereOf(settings)
      return {
        source: settings.name,
        probe,
        state,
        sentence,
        where,
        lastAtMs,
        lastRawC,
        readings,
        refused,
        batteryPercent,
      }
    })
  }

  #nowMs(): number {
    return this.#parts.world.clock.nowMs()
  }
}

function close(place: Place): Promise<void> {
  place.isClosed = true
  return place.source?.close() ?? Promise.resolve()
}

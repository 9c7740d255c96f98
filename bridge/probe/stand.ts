import type { Cancel } from '#core/measure/clock'
import type { Sample } from '#core/measure/reading'
import type { ProbeReport } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { openSource, whereOf } from './open-source.ts'
import { closePlace, closeSource, newPlace, type Place, reportsOf, silenceMs } from './place.ts'
import { lifeAfter, NEW_LIFE, type ProbeLife } from './probe-life.ts'
import type { Sink, World } from './source.ts'

export interface StandParts {
  readonly world: World
  readonly onSample: (sample: Sample) => void
  /** The state of a probe may have changed. */
  readonly onChange: () => void
  /** Something to be said in the log: one sentence. */
  readonly onSay: (sentence: string) => void
}

/** No source carries more probes: a wildcard topic on a busy broker would grow without end. */
const MAX_PROBES = 200

/** A port that has been silent for this long is opened anew, ms; each time in vain doubles it, up to the longest. */
const REOPEN_MS = { first: 60_000, longest: 600_000 } as const
/** How often that is looked at, ms. */
const LOOK_MS = 5000

/** All probes of this bridge: opens and closes their sources as the settings change, and knows how each is. */
export class Stand {
  readonly #parts: StandParts
  readonly #places = new Map<string, Place>()
  readonly #lastAtMs = new Map<string, number>()
  #cancel: Cancel

  constructor(parts: StandParts) {
    this.#parts = parts
    this.#cancel = parts.world.clock.after(LOOK_MS, () => this.#look())
  }

  /** Closes what is gone or changed, opens what is new; the rest goes on undisturbed. */
  async apply(probes: readonly ProbeSettings[]): Promise<void> {
    const wanted = new Map(probes.map((p) => [p.name, JSON.stringify(p)]))
    const ending = [...this.#places.values()].filter(
      (place) => wanted.get(place.settings.name) !== place.text,
    )
    for (const place of ending) this.#places.delete(place.settings.name)
    await Promise.all(ending.map((place) => this.#close(place)))
    for (const settings of probes) if (!this.#places.has(settings.name)) this.#open(settings)
    this.#parts.onChange()
  }

  reports(): readonly ProbeReport[] {
    return [...this.#places.values()].flatMap((place) => reportsOf(place, this.#nowMs()))
  }

  get settings(): readonly ProbeSettings[] {
    return [...this.#places.values()].map((place) => place.settings)
  }

  async close(): Promise<void> {
    this.#cancel()
    const all = [...this.#places.values()]
    this.#places.clear()
    await Promise.all(all.map((place) => this.#close(place)))
  }

  async #close(place: Place): Promise<void> {
    if (await closePlace(place, this.#parts.world.clock)) return
    const { name } = place.settings
    this.#parts.onSay(
      `${name}: its driver does not let go of ${whereOf(place.settings)}; it is left as it is`,
    )
  }

  #open(settings: ProbeSettings): void {
    const place = newPlace(settings, this.#nowMs())
    this.#places.set(settings.name, place)
    place.source = openSource(settings, this.#sinkOf(place), this.#parts.world)
  }

  /** Some adapters hang after a disturbance, and no event tells: then only opening them anew helps. */
  #look(): void {
    this.#cancel = this.#parts.world.clock.after(LOOK_MS, () => this.#look())
    for (const place of this.#places.values()) {
      if (!('baud' in place.settings) || place.way.state !== 'open') continue
      const waitMs = Math.min(REOPEN_MS.longest, silenceMs(place, REOPEN_MS.first) * 2 ** place.reopenings)
      if (this.#nowMs() - place.stirredMs > waitMs) void this.#reopen(place)
    }
  }

  async #reopen(place: Place): Promise<void> {
    this.#parts.onSay(`${place.settings.name}: nothing came for a while; the port is opened anew`)
    place.reopenings++
    place.stirredMs = this.#nowMs()
    await closeSource(place, this.#parts.world.clock)
    if (!place.isClosed) place.source = openSource(place.settings, this.#sinkOf(place), this.#parts.world)
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
        place.stirredMs = this.#nowMs()
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
    place.stirredMs = this.#nowMs()
    place.reopenings = 0
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
    // A silent port that is opened anew is still silent.
    const sinceMs = place.reopenings > 0 ? place.way.sinceMs : this.#nowMs()
    place.way = { state, sentence, sinceMs, lastRefused: null }
    this.#parts.onSay(`${place.settings.name}: ${sentence}`)
    this.#parts.onChange()
  }

  #nowMs(): number {
    return this.#parts.world.clock.nowMs()
  }
}

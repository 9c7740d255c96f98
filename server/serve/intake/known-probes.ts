import type { Reading } from '#core/measure/reading'
import { RECENT, type Recent } from './probe-manner.ts'

/** The last that was heard of a probe. */
export interface LastHeard {
  readonly reading: Reading
  /** The last value that a thermometer can show, believed or not, °C corrected. */
  readonly tempC: number | null
  readonly tempAtMs: number | null
}

/** Which probes there are and what was last heard of each, without asking the disk. */
export class KnownProbes {
  readonly #names = new Set<string>()
  readonly #heard = new Map<string, LastHeard>()
  readonly #recent = new Map<string, (readonly [number, number])[]>()

  has(name: string): boolean {
    return this.#names.has(name)
  }

  names(): readonly string[] {
    return [...this.#names].sort()
  }

  add(names: Iterable<string>): void {
    for (const name of names) this.#names.add(name)
  }

  last(name: string): LastHeard | null {
    return this.#heard.get(name) ?? null
  }

  all(): readonly { readonly name: string; readonly last: LastHeard }[] {
    return [...this.#heard].map(([name, last]) => ({ name, last }))
  }

  /** Its last believed readings, by time. */
  recent(name: string): Recent {
    return (this.#recent.get(name) ?? []).slice(-RECENT)
  }

  heard(readings: readonly Reading[]): void {
    for (const r of readings) {
      this.#names.add(r.probe)
      const before = this.#heard.get(r.probe)
      if (before !== undefined && before.reading.atMs > r.atMs) continue
      const isBelieved = r.kind === 'temp' && r.verdict === 'good'
      if (isBelieved) this.#remember(r.probe, r.atMs, r.tempC)
      const tempC = isBelieved ? r.tempC : (before?.tempC ?? null)
      const tempAtMs = isBelieved ? r.atMs : (before?.tempAtMs ?? null)
      this.#heard.set(r.probe, { reading: r, tempC, tempAtMs })
    }
  }

  #remember(name: string, atMs: number, tempC: number): void {
    const recent = this.#recent.get(name) ?? []
    if (recent.push([atMs, tempC]) > 2 * RECENT) recent.splice(0, RECENT)
    this.#recent.set(name, recent)
  }
}

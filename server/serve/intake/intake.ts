import type { Clock } from '#core/measure/clock'
import type { Reading, Sample } from '#core/measure/reading'
import { type AcceptedRecord, decodeSenml, type RefusedRecord } from '#core/wire/senml'
import type { AddedAs, NewReading } from '../../store/readings.ts'
import type { Store } from '../../store/store.ts'
import { Problem } from '../http/problem.ts'
import type { Recorder } from '../recorder.ts'
import type { BeliefBook } from './belief-book.ts'
import { GroupCommit } from './group-commit.ts'
import type { KnownProbes } from './known-probes.ts'

/** No alarm is raised live from a reading older than this, ms. */
const LIVE_MS = 30_000

/** Where readings go once they are on the disk. */
export interface ReadingSink {
  /** Fresh, and newer than everything seen of its probe. */
  live(reading: Reading): void
  /** Into the record only: old, or behind what was seen. */
  late(reading: Reading): void
}

export interface IntakeParts {
  readonly store: Store
  readonly clock: Clock
  readonly recorder: Recorder
  readonly beliefs: BeliefBook
  readonly probes: KnownProbes
  readonly sink: ReadingSink
}

export interface Taken {
  readonly stored: number
  readonly duplicates: number
  readonly refused: readonly RefusedRecord[]
}

/** The one door for readings: decode, judge and correct, commit, answer; and then the watch. */
export class Intake {
  readonly #parts: IntakeParts
  readonly #commits: GroupCommit
  /** The newest reading of each probe that the watch has had. */
  readonly #seenMs = new Map<string, number>()
  /** Readings committed, sent twice and refused since the start, for `/metrics`. */
  readonly counts = { stored: 0, duplicates: 0, refused: 0 }

  constructor(parts: IntakeParts) {
    this.#parts = parts
    this.#commits = new GroupCommit(parts.store.readings)
  }

  /** A SenML pack. `mayIntroduce`: a probe not heard of before is taken in and listed as new. */
  async takeSenml(body: unknown, mayIntroduce: boolean): Promise<Taken> {
    const decoded = decodeSenml(body, this.#parts.clock.nowMs())
    if (!Array.isArray(body)) throw new Problem(400, decoded.refused[0]!.why)
    const isStranger = (a: AcceptedRecord) => !mayIntroduce && !this.#parts.probes.has(a.sample.probe)
    const strangers = decoded.accepted.filter(isStranger)
    const accepted = decoded.accepted.filter((a) => !isStranger(a))
    const refused = [...decoded.refused, ...strangers.map(refuseStranger)].sort((a, b) => a.index - b.index)
    const added = await this.#take(accepted)
    return this.#count(added, refused)
  }

  /** Readings of ours: typed by hand. */
  async takeSamples(samples: readonly Sample[]): Promise<Taken> {
    return this.#count(
      await this.#take(samples.map((sample) => ({ sample, serial: null, deviceMs: null }))),
      [],
    )
  }

  /** Takes up where the record ends. */
  resume(newest: readonly Reading[]): void {
    this.#parts.beliefs.resume(newest)
    for (const r of newest) this.#seenMs.set(r.probe, r.atMs)
  }

  #count(added: readonly AddedAs[], refused: readonly RefusedRecord[]): Taken {
    const duplicates = added.filter((as) => as === 'duplicate').length
    const stored = added.length - duplicates
    this.counts.stored += stored
    this.counts.duplicates += duplicates
    this.counts.refused += refused.length
    return { stored, duplicates, refused }
  }

  async #take(accepted: readonly Pick<AcceptedRecord, 'sample' | 'serial' | 'deviceMs'>[]) {
    if (accepted.length === 0) return []
    if (this.#commits.isFull)
      throw new Problem(503, 'too many readings are waiting for the disk; send them again')
    const readings = accepted.map(({ sample, serial, deviceMs }): NewReading => {
      const reading = this.#parts.beliefs.judge(sample)
      return { reading, serial, deviceMs }
    })
    const added = await this.#commit(readings)
    readings.forEach(({ reading }, i) => this.#pass(reading, added[i]!))
    const fresh = readings.filter((_, i) => added[i] === 'stored')
    this.#parts.probes.heard(fresh.map(({ reading }) => reading))
    return added
  }

  /** While the disk refuses, the watch still gets what is fresh, and the sender is asked to keep everything. */
  async #commit(readings: readonly NewReading[]): Promise<readonly AddedAs[]> {
    try {
      return await this.#parts.recorder.write(() => this.#commits.add(readings))
    } catch (error) {
      const { trouble } = this.#parts.recorder
      if (trouble === null) throw error
      for (const { reading } of readings) if (this.#isLive(reading)) this.#toWatch(reading)
      throw new Problem(503, `${trouble}; send them again later`)
    }
  }

  #pass(reading: Reading, added: AddedAs): void {
    if (added !== 'stored') return
    if (this.#isLive(reading)) this.#toWatch(reading)
    else this.#parts.sink.late(reading)
  }

  #toWatch(reading: Reading): void {
    this.#seenMs.set(reading.probe, reading.atMs)
    this.#parts.sink.live(reading)
  }

  #isLive(reading: Reading): boolean {
    const isNewer = reading.atMs > (this.#seenMs.get(reading.probe) ?? -Infinity)
    return isNewer && this.#parts.clock.nowMs() - reading.atMs <= LIVE_MS
  }
}

const refuseStranger = ({ index, sample }: AcceptedRecord): RefusedRecord => ({
  index,
  why: `probe "${sample.probe}" is not known here; add it on the probes page, or show the bridge's key`,
})

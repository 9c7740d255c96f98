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
  late(readings: readonly Reading[]): void
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
    const { accepted, refused } = mayIntroduce ? decoded : this.#withoutStrangers(decoded)
    return this.#count(await this.#take(accepted), refused)
  }

  #withoutStrangers({ accepted, refused }: ReturnType<typeof decodeSenml>): ReturnType<typeof decodeSenml> {
    const isKnown = (a: AcceptedRecord) => this.#parts.probes.has(a.sample.probe)
    const strangers = accepted.filter((a) => !isKnown(a)).map(refuseStranger)
    return {
      accepted: accepted.filter(isKnown),
      refused: [...refused, ...strangers].sort((a, b) => a.index - b.index),
    }
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
    let duplicates = 0
    for (const as of added) if (as === 'duplicate') duplicates += 1
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
    const stored: Reading[] = []
    for (const [i, { reading }] of readings.entries()) if (added[i] === 'stored') stored.push(reading)
    this.#pass(stored)
    this.#parts.probes.heard(stored)
    return added
  }

  /** While the disk refuses, the watch still gets what is fresh, and the sender is asked to keep everything. */
  async #commit(readings: readonly NewReading[]): Promise<readonly AddedAs[]> {
    try {
      return await this.#parts.recorder.write(() => this.#commits.add(readings))
    } catch (error) {
      const { trouble } = this.#parts.recorder
      if (trouble === null) throw error
      const nowMs = this.#parts.clock.nowMs()
      for (const { reading } of readings) if (this.#isLive(reading, nowMs)) this.#toWatch(reading)
      throw new Problem(503, `${trouble}; send them again later`)
    }
  }

  #pass(stored: readonly Reading[]): void {
    const nowMs = this.#parts.clock.nowMs()
    const late: Reading[] = []
    for (const reading of stored)
      if (this.#isLive(reading, nowMs)) this.#toWatch(reading)
      else late.push(reading)
    if (late.length > 0) this.#parts.sink.late(late)
  }

  #toWatch(reading: Reading): void {
    this.#seenMs.set(reading.probe, reading.atMs)
    this.#parts.sink.live(reading)
  }

  #isLive(reading: Reading, nowMs: number): boolean {
    return nowMs - reading.atMs <= LIVE_MS && reading.atMs > (this.#seenMs.get(reading.probe) ?? -Infinity)
  }
}

const refuseStranger = ({ index, sample }: AcceptedRecord): RefusedRecord => ({
  index,
  why: `probe "${sample.probe}" is not known here; add it on the probes page, or show the bridge's key`,
})

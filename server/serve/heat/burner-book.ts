import type { PotBelief } from '#core/bath/pot-belief'
import type { Vessel } from '#core/bath/vessel'
import type { Clock } from '#core/measure/clock'
import type { TaughtTrace } from '../../store/heat.ts'
import type { Store } from '../../store/store.ts'
import type { Recorder } from '../recorder.ts'
import { type BathSpan, bathSpans } from './bath-spans.ts'
import { carryBelief, type Known } from './carry-belief.ts'
import type { HeatWork } from './heat-work.ts'
import { loadDay } from './load-day.ts'

/** Older batches say nothing that newer ones don't say better. */
const BATCHES = 20

export interface BurnerBookParts {
  readonly store: Store
  readonly recorder: Recorder
  readonly clock: Clock
  readonly work: HeatWork
  /** The pot as it stands now; `null` when it is gone or its vessel isn't known. */
  readonly vesselOf: (potId: string) => Vessel | null
  /** The probe that hangs in it now. */
  readonly probeOf: (potId: string) => string | null
  /** Something new is believed of a pot. */
  readonly onLearned: (potId: string) => void
  readonly onFailure: (error: unknown) => void
}

/** What one pot taught so far. */
interface Page {
  readonly taught: readonly TaughtTrace[]
  readonly burnerChangesMs: readonly number[]
}

const EMPTY: Page = { taught: [], burnerChangesMs: [] }

/** Knows every pot on its burner: learned from the record, one fill after the other, and kept in the store. */
export class BurnerBook {
  readonly #parts: BurnerBookParts
  readonly #pages = new Map<string, Page>()
  readonly #cached = new Map<string, { readonly key: string; readonly belief: PotBelief }>()
  #order: Promise<void> = Promise.resolve()
  #isClosed = false

  constructor(parts: BurnerBookParts) {
    this.#parts = parts
  }

  /** Takes up what was learned before. */
  async load(potIds: readonly string[]): Promise<void> {
    for (const potId of potIds) this.#pages.set(potId, await this.#read(potId))
  }

  /** What is believed of the pot as it stands now; `null` where its vessel isn't known. */
  beliefOf(potId: string, vessel = this.#parts.vesselOf(potId)): PotBelief | null {
    if (vessel === null) return null
    const { taught, burnerChangesMs } = this.page(potId)
    const nowMs = this.#parts.clock.nowMs()
    // A belief fades by the day; within an hour it is the same object, so that what is worked out of it can be kept.
    const key = JSON.stringify([
      vessel,
      taught.at(-1)?.fromMs,
      taught.at(-1)?.toMs,
      taught.length,
      burnerChangesMs,
      Math.floor(nowMs / 3_600_000),
    ])
    const known = this.#cached.get(potId)
    if (known?.key === key) return known.belief
    const belief = carryBelief(lastKnown(taught), { vessel, atMs: nowMs, burnerChangesMs })
    this.#cached.set(potId, { key, belief })
    return belief
  }

  page(potId: string): Page {
    return this.#pages.get(potId) ?? EMPTY
  }

  /** No trace has been learned from since the burner is this one: everything said of it is a guess. */
  isGuess(potId: string): boolean {
    const { taught, burnerChangesMs } = this.page(potId)
    const sinceMs = burnerChangesMs.at(-1) ?? 0
    return !taught.some((t) => t.fromMs >= sinceMs && t.lesson !== null && t.lesson.misfitC !== null)
  }

  /** Learns when there is time: a stage has ended, or late readings came. */
  learnSoon(potId: string, again = false): void {
    void this.learn(potId, again).catch(this.#parts.onFailure)
  }

  /** Learns what is new in the record of a pot; `again`: everything from the first trace on. One pot at a time. */
  learn(potId: string, again = false): Promise<void> {
    const next = this.#order.then(() => this.#learn(potId, again))
    this.#order = next.catch(() => undefined)
    return next
  }

  async changeBurner(potId: string, who: string | null): Promise<void> {
    const { store, recorder, clock } = this.#parts
    await recorder.write(() => store.heat.addBurnerChange({ potId, atMs: clock.nowMs(), who }))
    this.#pages.set(potId, await this.#read(potId))
    this.#parts.onLearned(potId)
  }

  /** A guided evening is done: its span is learned from like a fill with goods. */
  async addEvening(potId: string, fromMs: number, toMs: number): Promise<void> {
    const { store, recorder } = this.#parts
    const litres = this.#parts.vesselOf(potId)?.litres ?? 0
    await recorder.write(() =>
      store.heat.putTaught({ potId, fromMs, toMs, batchId: null, litres, lesson: null }),
    )
    await this.learn(potId)
  }

  /** Settles what is under way and lets the learning's thread go. */
  async close(): Promise<void> {
    this.#isClosed = true
    await this.#order
    await this.#parts.work.close()
  }

  async #learn(potId: string, again: boolean): Promise<void> {
    const vessel = this.#parts.vesselOf(potId)
    if (vessel === null || this.#isClosed) return
    const { store } = this.#parts
    const spans = await this.#spansOf(potId)
    const rows = await store.heat.taught(potId)
    const changes = await store.heat.burnerChanges(potId)
    const first = again ? 0 : spans.findIndex((span) => !isTaught(rows, span))
    if (first < 0) return
    await this.#forget(rows, spans)
    let known = lastKnown(rows.filter((row) => row.fromMs < (spans[first]?.fromMs ?? 0)))
    for (const span of spans.slice(first)) {
      if (this.#isClosed) return
      const row = await this.#teachOne(potId, { span, known, changes, vessel: litresOf(rows, span, vessel) })
      if (row.lesson !== null) known = { belief: row.lesson.belief, atMs: row.fromMs }
    }
    this.#pages.set(potId, await this.#read(potId))
    this.#parts.onLearned(potId)
  }

  async #teachOne(
    potId: string,
    one: {
      readonly span: BathSpan
      readonly known: Known | null
      readonly changes: readonly number[]
      readonly vessel: Vessel
    },
  ): Promise<TaughtTrace> {
    const { store, recorder, work } = this.#parts
    const { span, known, changes, vessel } = one
    const day = await loadDay(store, potId, span, vessel)
    const before = carryBelief(known, { vessel, atMs: span.fromMs, burnerChangesMs: changes })
    const lesson = day === null ? null : await work.run({ kind: 'teach', before, day })
    const { batchId, fromMs, toMs } = span
    const row = { potId, batchId, fromMs, toMs, litres: vessel.litres, lesson }
    await recorder.write(() => store.heat.putTaught(row))
    return row
  }

  /** Rows of fills that are no longer in the record as they were: a stage that was taken back or moved. */
  async #forget(rows: readonly TaughtTrace[], spans: readonly BathSpan[]): Promise<void> {
    const { store, recorder } = this.#parts
    const oldest = spans[0]?.fromMs ?? Infinity
    for (const { potId, fromMs } of rows)
      if (fromMs >= oldest && !spans.some((span) => span.fromMs === fromMs))
        await recorder.write(() => store.heat.removeTaught(potId, fromMs))
  }

  /** Every fill on record, oldest first; evenings stand where they were. */
  async #spansOf(potId: string): Promise<readonly BathSpan[]> {
    const { store } = this.#parts
    const found = await store.lookUp.find({ facets: [{ kind: 'pot', value: potId }], limit: BATCHES })
    const spans: BathSpan[] = []
    for (const { id } of found) {
      const batch = await store.batches.get(id)
      if (batch !== null) spans.push(...bathSpans(batch, potId))
    }
    for (const row of await store.heat.taught(potId))
      if (row.batchId === null) spans.push(await this.#eveningSpan(row))
    return spans.sort((a, b) => a.fromMs - b.fromMs)
  }

  async #eveningSpan({ potId, fromMs, toMs }: TaughtTrace): Promise<BathSpan> {
    const hung = await this.#parts.store.pots.assignments(fromMs)
    const then = hung.find((a) => a.potId === potId && a.fromMs <= fromMs)
    const probe = then?.probe ?? this.#parts.probeOf(potId)
    const runs = probe === null ? [] : [{ stage: null, probe, startedMs: fromMs, endedMs: toMs }]
    return { batchId: null, fromMs, toMs, runs }
  }

  async #read(potId: string): Promise<Page> {
    const { heat } = this.#parts.store
    return { taught: await heat.taught(potId), burnerChangesMs: await heat.burnerChanges(potId) }
  }
}

function lastKnown(taught: readonly TaughtTrace[]): Known | null {
  const last = taught.findLast((row) => row.lesson !== null)
  return last?.lesson === null || last === undefined
    ? null
    : { belief: last.lesson.belief, atMs: last.fromMs }
}

/** An evening without a lesson has not been learned from yet. */
const isTaught = (rows: readonly TaughtTrace[], span: BathSpan): boolean =>
  rows.some(
    (row) =>
      row.fromMs === span.fromMs && row.toMs === span.toMs && (row.batchId !== null || row.lesson !== null),
  )

/** The water of that day where it was kept; else as the pot stands now. */
const litresOf = (rows: readonly TaughtTrace[], { fromMs }: BathSpan, vessel: Vessel): Vessel => ({
  ...vessel,
  litres: rows.find((row) => row.fromMs === fromMs)?.litres ?? vessel.litres,
})

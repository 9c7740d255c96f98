import type { PotBelief } from '#core/bath/pot-belief'
import type { AlarmHappening, Happening } from '#core/watch/happening'
import type { StoveInput } from '#core/watch/stove-input'
import type { Store } from '../../store/store.ts'
import type { Kept } from '../../tell/kept.ts'
import { type Checkpoint, printOf } from './checkpoint.ts'
import { foldRecord, standingAlarms } from './fold-record.ts'
import { newestByProbe } from './folded-so-far.ts'
import type { PotsOnStove } from './pots-on-stove.ts'
import { inOrder, recordNotes, recordReadings } from './record-inputs.ts'
import type { NewStoveWatch, StoveWatch } from './stove-watch.ts'

/** Before the first stage of a running batch, or before now when none runs: the bath and its probes are known by then, ms. */
const LEAD_MS = 15 * 60_000

/** Readings of the last moments may still be on their way; a checkpoint ends before them, ms. */
const SETTLED_MS = 60_000

/** How often a checkpoint is made while a batch runs, ms. */
const KEEP_EVERY_MS = 5 * 60_000

export interface DayFoldParts {
  readonly store: Store
  readonly stove: PotsOnStove
  readonly newWatch: NewStoveWatch
  readonly lagSOf: (probe: string) => number | null
  readonly beliefOf: (potId: string, atMs: number) => PotBelief | null
  /** What a fold depends on besides the record: the build of the program and the settings of the watch. */
  readonly program: () => string
  readonly kept: Kept<Checkpoint>
  /** The checkpoint could not be kept: the next start takes longer. */
  readonly onTrouble: (sentence: string) => void
}

/** The watch as the record makes it, with what was found on the way from where the fold began. */
export interface FoldedDay {
  readonly fromMs: number
  readonly watch: StoveWatch
  /** Since the last checkpoint; what was found before that has been told. */
  readonly found: readonly Happening[]
  /** The alarms that stand at the end. */
  readonly standing: readonly AlarmHappening[]
  /** When the newest reading of each probe in it was taken, Unix ms. */
  readonly newest: ReadonlyMap<string, number>
}

/** Unix ms. */
interface Stretch {
  readonly fromMs: number
  readonly toMs: number
}

interface Part {
  readonly watch: StoveWatch
  readonly inputs: readonly StoveInput[]
  readonly found: readonly Happening[]
}

/**
 * Folds the running day from the record. On the way it keeps a checkpoint, and the next fold goes on from there,
 * unless something that came before has changed: then it is void and the whole day is folded.
 */
export class DayFold {
  readonly #parts: DayFoldParts
  #checkpoint: Checkpoint | null = null
  #keptMs = -Infinity
  #order: Promise<unknown> = Promise.resolve()

  constructor(parts: DayFoldParts) {
    this.#parts = parts
  }

  /** Takes up what an earlier run of the program kept. What can't be read is as good as nothing kept. */
  async open(): Promise<void> {
    const { kept, newWatch, onTrouble } = this.#parts
    try {
      const checkpoint = await kept.load()
      if (checkpoint !== null) newWatch(checkpoint.watch)
      this.#checkpoint = checkpoint
    } catch (error) {
      onTrouble(`what was kept of the watch could not be read, the day is folded instead: ${String(error)}`)
    }
  }

  /** The day up to a moment. */
  upTo(toMs: number): Promise<FoldedDay> {
    return this.#inTurn(() => this.#upTo(toMs))
  }

  /** Called each second; now and then it makes a checkpoint. */
  async tick(nowMs: number): Promise<void> {
    if (nowMs - this.#keptMs >= KEEP_EVERY_MS) await this.keep(nowMs)
  }

  /** Makes a checkpoint. While no batch runs there is little to fold, and nothing to keep. */
  async keep(nowMs: number): Promise<void> {
    this.#keptMs = nowMs
    if (this.#parts.stove.batches().length > 0) await this.#inTurn(() => this.#advance(nowMs - SETTLED_MS))
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = this.#order.then(work)
    this.#order = next.catch(() => undefined)
    return next
  }

  async #upTo(toMs: number): Promise<FoldedDay> {
    this.#keptMs = toMs
    const { checkpoint, found } = await this.#advance(toMs - SETTLED_MS)
    const notes = await this.#notes({ fromMs: checkpoint.fromMs, toMs })
    const part = await this.#fold(checkpoint, notes, { fromMs: checkpoint.fromMs, toMs })
    return {
      fromMs: checkpoint.fromMs,
      watch: part.watch,
      found: [...found, ...part.found],
      standing: standingAlarms([...checkpoint.standing, ...part.found]),
      newest: newestByProbe(part.inputs),
    }
  }

  /** From the last checkpoint, or from the beginning, to a new one. */
  async #advance(toMs: number) {
    const stretch = { fromMs: this.#beginMs(toMs), toMs }
    const notes = (await this.#notes(stretch)).filter((note) => note.atMs < toMs)
    const before = await this.#valid(notes, stretch)
    // Counted before the readings are read: one that comes in between makes it void, not wrong.
    const print = await printOf(this.#parts.store, this.#parts.program(), notes, stretch)
    const { watch, inputs, found } = await this.#fold(before, notes, stretch)
    const checkpoint: Checkpoint = {
      ...stretch,
      print,
      lastMs: inputs.at(-1)?.atMs ?? before?.lastMs ?? stretch.fromMs,
      watch: watch.kept(),
      standing: standingAlarms([...(before?.standing ?? []), ...found]),
    }
    await this.#keep(checkpoint)
    return { checkpoint, found }
  }

  /** The last checkpoint, if it lies in this stretch and all that it was made from is as it was. */
  async #valid(notes: readonly StoveInput[], { fromMs, toMs }: Stretch): Promise<Checkpoint | null> {
    const last = this.#checkpoint
    if (last === null || last.fromMs !== fromMs || last.toMs > toMs) return null
    const { store, program } = this.#parts
    return last.print === (await printOf(store, program(), notes, last)) ? last : null
  }

  #notes(stretch: Stretch) {
    const { store, stove, lagSOf, beliefOf } = this.#parts
    return recordNotes(store, { ...stretch, batches: stove.batches(), lagSOf, beliefOf })
  }

  async #fold(
    before: Checkpoint | null,
    notes: readonly StoveInput[],
    { fromMs, toMs }: Stretch,
  ): Promise<Part> {
    const { store, newWatch } = this.#parts
    const sinceMs = before?.toMs ?? fromMs
    const readings = await recordReadings(store, notes, { fromMs: sinceMs, toMs })
    const ticks = before === null ? { toMs } : { toMs, lastMs: before.lastMs }
    const inputs = inOrder(
      notes.filter((note) => note.atMs >= sinceMs),
      readings,
      ticks,
    )
    const watch = newWatch(before?.watch)
    return { watch, inputs, found: await foldRecord(watch, inputs) }
  }

  async #keep(checkpoint: Checkpoint): Promise<void> {
    const { stove, kept, onTrouble } = this.#parts
    const isWorthIt = stove.batches().length > 0
    this.#checkpoint = isWorthIt ? checkpoint : null
    if (isWorthIt)
      await kept
        .save(checkpoint)
        .catch((error: unknown) => onTrouble(`what the watch knows could not be kept: ${String(error)}`))
  }

  /** Where the fold of a day begins; the same for as long as the same batches run. */
  #beginMs(toMs: number): number {
    const starts = this.#parts.stove.batches().flatMap((batch) => batch.stages.map((run) => run.startedMs))
    return Math.min(toMs, ...starts) - LEAD_MS
  }
}

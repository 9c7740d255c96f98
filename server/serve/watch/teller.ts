import type { Clock } from '#core/measure/clock'
import {
  type AlarmDesk,
  type DeskChange,
  type DeskInput,
  type DeskStep,
  emptyDesk,
  endUnfounded,
  stepDesk,
} from '#core/watch/alarm-desk'
import { forgetBefore, openEntries } from '#core/watch/alarm-keeping'
import type { AlarmHappening, NoticeHappening } from '#core/watch/happening'
import type { AlarmMessage } from '#core/wire/live'
import type { StoredAlarm } from '../../store/alarms.ts'
import type { StoredBatch } from '../../store/batches.ts'
import type { Message } from '../../store/messages.ts'
import type { Store } from '../../store/store.ts'
import type { Recorder } from '../recorder.ts'
import { type AlarmContext, alarmMessage, noticeMessage } from './alarm-message.ts'
import { foundLater } from './found-later.ts'
import type { StoveWords } from './stove-watch.ts'

/** What is over stays on the desk for a day, so that a day folded again meets it. */
const KEEP_MS = 24 * 3_600_000

/** More alarms than this no batch has. */
const MOST_OF_BATCH = 10_000

export interface TellerParts {
  readonly store: Store
  readonly recorder: Recorder
  readonly clock: Clock
  readonly words: StoveWords
  /** Which batch is on a pot now. */
  readonly batchOn: (potId: string) => number | null
  /** Called with each new message, in order, once it has its number. */
  readonly tell: (message: Message) => void
}

/** Gives happenings their number, their words and their row, and hands them on. */
export class Teller {
  readonly #parts: TellerParts
  #desk: AlarmDesk = emptyDesk
  #lastId = 0
  /** Which batch an alarm belonged to when it was raised, and how it was put into words. */
  readonly #contexts = new Map<number, AlarmContext>()
  readonly #alarmOfMessage = new Map<number, number>()

  constructor(parts: TellerParts) {
    this.#parts = parts
  }

  /** Takes the desk and the numbers up from the record. */
  async resume(): Promise<void> {
    const { store, clock } = this.#parts
    const kept = await store.alarms.kept(clock.nowMs() - KEEP_MS)
    this.#lastId = Math.max(await store.messages.lastId(), await store.alarms.lastId())
    this.#desk = { entries: kept.map((k) => k.entry), nextAlarmId: this.#lastId + 1 }
    for (const { entry, batchId, text } of kept) this.#contexts.set(entry.alarmId, { batchId, text })
  }

  get lastId(): number {
    return this.#lastId
  }

  /** A page that knows a higher number than we do has seen what we lost with the power: go on from there. */
  goOnFrom(id: number): void {
    if (id > this.#lastId && id - this.#lastId < 100_000) this.#lastId = id
  }

  /** Alarms that a page must show now, as messages under the last number given out. */
  open(): readonly AlarmMessage[] {
    return openEntries(this.#desk)
      .filter((entry) => !entry.foundLate)
      .map((entry) => alarmMessage(entry, this.#contextOf(entry.alarmId), 'raised', this.#lastId))
  }

  get desk(): AlarmDesk {
    return this.#desk
  }

  /** An alarm on the desk as it stands now, by its own number or by that of any message about it. */
  find(id: number): StoredAlarm | null {
    const alarmId = this.#alarmOfMessage.get(id) ?? id
    const entry = this.#desk.entries.find((e) => e.alarmId === alarmId)
    return entry === undefined ? null : { entry, ...this.#contextOf(alarmId) }
  }

  /** Alarms and messages count together: the number of an alarm is that of the message that raised it. */
  alarm(happening: AlarmHappening, late: boolean): void {
    const desk = { ...this.#desk, nextAlarmId: this.#lastId + 1 }
    this.#take(stepDesk(desk, { kind: 'happening', happening, late }))
  }

  /** Readings came late for a batch that has ended: what they tell of is put on record, and calls nobody. */
  async foundLater(
    batch: StoredBatch,
    happenings: readonly AlarmHappening[],
    stretch: { readonly fromMs: number; readonly toMs: number },
  ): Promise<void> {
    const { store, recorder, words } = this.#parts
    const known = await store.alarms.list({ limit: MOST_OF_BATCH, batchId: batch.id })
    const entries = known.map(({ entry }) => entry).toReversed()
    for (const { entry, raised } of foundLater(entries, happenings, stretch, this.#lastId + 1)) {
      this.#lastId = entry.alarmId
      const text = words.alarm(raised, batch)
      void recorder.keep(() => store.alarms.put({ entry, batchId: batch.id, text }))
    }
  }

  notice(happening: NoticeHappening, isCalling = true): void {
    const text = this.#parts.words.notice(happening)
    const batchId = this.#parts.batchOn(happening.potId)
    this.#send(
      { kind: 'notice', message: noticeMessage(happening, batchId, text, ++this.#lastId) },
      isCalling,
    )
  }

  /** What a person did; one sentence when it was not possible. */
  act(id: number, act: Extract<DeskInput, { kind: 'act' }>['act']): string | null {
    const alarmId = this.#alarmOfMessage.get(id) ?? id
    const step = stepDesk(this.#desk, { kind: 'act', alarmId, act })
    this.#take(step)
    return step.refused
  }

  tick(atMs: number): void {
    this.#take(stepDesk(this.#desk, { kind: 'tick', atMs }))
    this.#desk = forgetBefore(this.#desk, atMs - KEEP_MS)
    const known = new Set(this.#desk.entries.map((e) => e.alarmId))
    for (const alarmId of this.#contexts.keys()) if (!known.has(alarmId)) this.#contexts.delete(alarmId)
    for (const [id, alarmId] of this.#alarmOfMessage) if (!known.has(alarmId)) this.#alarmOfMessage.delete(id)
  }

  /** After the day was folded again: what stands without a ground any more ends now. */
  endUnfounded(standing: readonly AlarmHappening[], atMs: number): void {
    this.#take(endUnfounded(this.#desk, standing, atMs))
  }

  #take(step: DeskStep): void {
    this.#desk = step.desk
    for (const change of step.changes) this.#change(change)
  }

  #change({ change, entry, atMs }: DeskChange): void {
    const { store, recorder } = this.#parts
    const context = this.#newContext(change, entry)
    void recorder.keep(() => store.alarms.put({ entry, ...context }))
    const isFresh = entry.alarmId > this.#lastId
    if (isFresh) this.#lastId = entry.alarmId
    if (entry.foundLate || change === 'succeeded') return
    const id = isFresh ? entry.alarmId : ++this.#lastId
    this.#alarmOfMessage.set(id, entry.alarmId)
    this.#send({ kind: 'alarm', message: alarmMessage(entry, context, change, id) }, true, atMs)
  }

  #newContext(change: DeskChange['change'], entry: DeskChange['entry']): AlarmContext {
    const known = this.#contexts.get(entry.alarmId)
    if (known !== undefined && change !== 'worsened' && change !== 'raised') return known
    const batchId = known?.batchId ?? this.#parts.batchOn(entry.potId)
    const context = { batchId, text: this.#parts.words.alarm(entry.happening) }
    this.#contexts.set(entry.alarmId, context)
    return context
  }

  #contextOf(alarmId: number): AlarmContext {
    return this.#contexts.get(alarmId) ?? { batchId: null, text: '' }
  }

  #send(message: Message, isCalling: boolean, atMs = this.#parts.clock.nowMs()): void {
    void this.#parts.recorder.keep(() => this.#parts.store.messages.add(message, atMs))
    if (isCalling) this.#parts.tell(message)
  }
}

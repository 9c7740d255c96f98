import type { StageState } from '../batch/stage-states.ts'
import type { DeskChangeKind } from '../watch/alarm-desk.ts'
import type { AlarmHappening, NoticeHappening } from '../watch/happening.ts'
import type { AlarmName, NoticeName, Urgency } from '../plan/alarm-names.ts'
import type { Stage } from '../plan/plan.ts'
import type { ForecastLive, HoldLive, PotNumbers } from '../watch/pot-numbers.ts'

export type { ForecastLive, HoldLive, PotNumbers }

/**
 * The socket between server and page. Server → page: `stove` (the whole picture, on connecting and whenever
 * pots, batches or stages change), `pulse` (each second: live numbers and, by arriving at all, the sign that
 * the watch is running), `reading` (each stored reading, may be dropped when a page is slow), `alarm` and
 * `notice` (never dropped: a page says in `auth.lastId` the last id that it has and gets what it missed).
 * Page → server, each with an answer: `acknowledge`, `shelve`, `seen`, `heardTest`.
 */
export interface ServerToPage {
  stove(stove: StoveLive): void
  pulse(pulse: Pulse): void
  reading(reading: ReadingMessage): void
  alarm(alarm: AlarmMessage): void
  notice(notice: NoticeMessage): void
  /** More was missed than is sent now: the older messages stand in the record alone. */
  leftOut(): void
  /** Nobody has answered yet: sound again, as loud as it says. Comes again each minute. */
  call(call: CallMessage): void
  /** Somebody asks who would hear an alarm: sound, and let the person here answer. */
  test(test: TestMessage): void
}

export interface PageToServer {
  acknowledge(ask: { readonly id: number; readonly who?: string }, answer: (a: Answer) => void): void
  shelve(ask: { readonly id: number; readonly minutes: number }, answer: (a: Answer) => void): void
  /** A page tells that it has shown (and, where sound is on, sounded) everything up to this id. */
  seen(ask: { readonly id: number; readonly sound: boolean }, answer: (a: Answer) => void): void
  /** A person at this device has heard the test alarm. */
  heardTest(ask: { readonly testId: number; readonly device: string }, answer: (a: Answer) => void): void
}

export type Answer = { readonly ok: true } | { readonly ok: false; readonly why: string }

/** One of `alarmId` and `noticeId` is set. `loud`: nobody has acknowledged it for a minute. */
export interface CallMessage {
  readonly alarmId: number | null
  readonly noticeId: number | null
  readonly loudness: 'tone' | 'repeat' | 'loud'
  readonly attempt: number
}

export interface TestMessage {
  readonly testId: number
  readonly atMs: number
}

export interface ReadingMessage {
  readonly probe: string
  readonly atMs: number
  /** °C, corrected; `null` when the probe reported a fault. */
  readonly tempC: number | null
  /** °C as decoded, before any correction: what a check of the probe goes by. */
  readonly rawC: number | null
  readonly verdict: string
}

export interface StoveLive {
  readonly atMs: number
  readonly pots: readonly PotLive[]
  readonly alarms: readonly AlarmMessage[]
  /** The highest id given out so far. */
  readonly lastId: number
  /** How many pages and devices would sound an alarm now. */
  readonly listeners: number
  /** Set while readings can't be written to disk: what a person should know and do. */
  readonly trouble: string | null
}

export interface Pulse {
  readonly atMs: number
  readonly pots: readonly PotNumbers[]
  readonly listeners: number
  readonly trouble: string | null
}

/** A pot and what is going on in it. */
export interface PotLive extends PotNumbers {
  readonly title: string
  readonly litres: number | null
  readonly dialMax: number | null
  readonly batch: { readonly id: number; readonly title: string } | null
  readonly stage: Stage | null
  /** All stages of the batch's plan, with how far each has come. */
  readonly stages: readonly {
    readonly id: string
    readonly title: string
    readonly state: StageState
  }[]
}

/** As in `docs/api.md`; times ISO 8601 with `Z`. */
export interface AlarmMessage {
  readonly id: number
  readonly alarm: AlarmName
  readonly urgency: Urgency
  readonly change: AlarmChange
  readonly state: AlarmLifeState
  readonly pot: string
  readonly batch: number | null
  readonly stage: string | null
  readonly tempC: number | null
  readonly limitC: number | null
  readonly sinceAt: string
  readonly raisedAt: string
  readonly clearedAt: string | null
  readonly acknowledgedAt: string | null
  readonly acknowledgedBy: string | null
  /** Identifies the alarm through its changes; `id` identifies the message. */
  readonly alarmId: number
  /** In the studio's unit and language; a page words the facts again for its own person. */
  readonly text: string
  readonly facts?: AlarmHappening
}

/**
 * `worsened`: it stands as before and now needs a person sooner than was said. `reminded`: it was acknowledged a
 * quarter of an hour ago and stands all the same, so it wants its person again.
 */
export type AlarmChange = Exclude<DeskChangeKind, 'succeeded'>

/** After ISA-18.2 / IEC 62682. */
export type AlarmLifeState =
  | 'unacknowledged'
  | 'acknowledged'
  | 'returned-unacknowledged'
  | 'normal'
  | 'shelved'
  | 'out-of-service'

export interface NoticeMessage {
  readonly id: number
  readonly notice: NoticeName
  readonly pot: string
  readonly batch: number | null
  readonly stage: string
  readonly at: string
  readonly tempC: number | null
  readonly text: string
  readonly facts?: NoticeHappening
}

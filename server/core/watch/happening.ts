import type { AlarmName, NoticeName, Urgency } from '../plan/alarm-names.ts'

/**
 * What the watch found. `atMs` is when it was decided, `sinceMs` when it began; both Unix ms UTC on the
 * clock of the inputs. A happening is data: a shell stores it, words it and tells people.
 */
export type Happening = NoticeHappening | AlarmHappening

export interface NoticeHappening {
  readonly kind: 'notice'
  readonly notice: NoticeName
  readonly atMs: number
  readonly potId: string
  readonly stageId: string
  /** The estimate when it was decided, °C; `null` when there was none. */
  readonly tempC: number | null
  /** For `out-by-due`, `hold-done`: when it was or will be due. */
  readonly dueMs?: number
  /** When what it tells began, where that is earlier than `atMs`: the entry into the window, say. */
  readonly sinceMs?: number
  /** For `at-window`: the goods were noted in already, or the hold wants none; only staying there is left to do. */
  readonly holdFollows?: true
  /** For `turn-down-now`: to which mark, and what comes of it. */
  readonly turn?: TurnDown
}

/** Which way to turn the dial, and what comes of it. `null`: not known. */
export interface TurnDown {
  /** As last noted. */
  readonly fromDial: number | null
  /** The mark that holds the window. */
  readonly toDial: number | null
  /** How high the bath then coasts, °C. */
  readonly peakC: number | null
  /** `false`: the mark is a guess from the vessel alone. */
  readonly isLearned: boolean
}

export interface AlarmHappening {
  readonly kind: 'alarm'
  readonly alarm: AlarmName
  /** `escalated`: it stands already and has become more urgent; never comes before `raised`. */
  readonly change: 'raised' | 'escalated' | 'cleared'
  readonly atMs: number
  readonly sinceMs: number
  readonly potId: string
  /** `null` for a pot that no stage is running on. */
  readonly stageId: string | null
  readonly urgency: Urgency
  /** The estimate, °C; while no reading is to be had the last one, and `lastReadingMs` says of when. */
  readonly tempC: number | null
  /** The bound that was passed or is headed for, °C. */
  readonly limitC: number | null
  readonly rateCPerMin: number | null
  readonly lastReadingMs: number | null
  /** The highest (or lowest, for `below-window`) believed reading since it began, °C. */
  readonly peakC: number | null
  /** When the limit will be passed at the present course; for the `heading-…` alarms. */
  readonly expectedMs: number | null
  /** The dial as last noted, so that the words can say it. */
  readonly dial: number | null
  /** For a cause seen over several pots: all of them, this one first. */
  readonly potIds: readonly string[]
  /** For a cause over several pots: what each of `potIds` reads, °C; `null` where there is no reading. */
  readonly potTempsC?: readonly (number | null)[]
  /** A likely reason, worded as a question by `core/words`. */
  readonly reason: AlarmReason | null
}

export type AlarmReason =
  | 'burner-up'
  | 'burner-off'
  | 'lid-off'
  | 'probe-out'
  | 'probe-unplugged'
  | 'wrong-burner'
  | 'probes-swapped'
  | 'power'
  | 'heat-on'
  | 'hot-water-poured'
  | 'cold-water-poured'
  | 'bridge-gone'

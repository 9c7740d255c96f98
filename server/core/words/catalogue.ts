import type { AlarmName, NoticeName } from '../plan/alarm-names.ts'
import type { AlarmReason } from '../watch/happening.ts'

/** The parts of a sentence, already worded: numbers in the person's unit, times in their zone. */
export interface AlarmParts {
  readonly pot: string
  readonly pots: string
  /** The pots of one cause, the one to go to first in front, each with what it reads. */
  readonly each: readonly { readonly name: string; readonly temp: string | null }[]
  readonly temp: string | null
  readonly limit: string | null
  readonly rate: string | null
  readonly isRising: boolean
  readonly since: string
  /** How long it has stood or the probe has been silent. */
  readonly lasted: string
  readonly expected: string | null
  readonly peak: string | null
  readonly dial: string | null
  readonly lastAt: string | null
}

export interface NoticeParts {
  readonly pot: string
  readonly stage: string
  readonly temp: string | null
  readonly due: string | null
  readonly since: string | null
  readonly holdFollows: boolean
  readonly turn: TurnParts | null
}

/** Marks of the dial, and how high the bath then coasts; `null`: not known. */
export interface TurnParts {
  readonly from: string | null
  readonly to: string | null
  readonly peak: string | null
  readonly isLearned: boolean
}

export interface HoldParts {
  readonly clockMin: number
  readonly requiredMin: number
  readonly inMin: number
  readonly belowMin: number
  readonly aboveMin: number
  readonly ceilingMin: number
  readonly unknownMin: number
  readonly outMin: number
  readonly lowest: { readonly temp: string; readonly under: string } | null
  readonly highest: { readonly temp: string; readonly over: string } | null
  readonly overCeiling: string | null
}

/** The sentences of alarms, notices and holds in one language. */
export interface Catalogue {
  readonly alarms: Readonly<Record<AlarmName, (p: AlarmParts) => string>>
  /** What to do about it. */
  readonly acts: Readonly<Record<AlarmName, string>>
  /** The same where it is known to which mark of the dial. */
  readonly actsTo: Readonly<Partial<Record<AlarmName, (mark: string) => string>>>
  /** After "for": a time that nobody counts in seconds. */
  readonly aboutAMinute: string
  /** The likely reason, as a question. */
  readonly reasons: Readonly<Record<AlarmReason, string>>
  cleared(name: string, p: AlarmParts): string
  readonly alarmNames: Readonly<Record<AlarmName, string>>
  readonly notices: Readonly<Record<NoticeName, (p: NoticeParts) => string>>
  hold(p: HoldParts): string
}

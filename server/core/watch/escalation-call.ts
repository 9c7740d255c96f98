import type { Urgency } from '../plan/alarm-names.ts'

/** The ways to a person, in the order they are tried. The lamp follows the state of its pot by itself. */
export type Means = 'page' | 'push' | 'lamp' | 'webhook'

/** `tone`: once. `repeat`: until somebody answers. `loud`: likewise, and as loud as the device can. */
export type Loudness = 'tone' | 'repeat' | 'loud'

/** What somebody is called for: an alarm until it is answered, or a notice, which nobody needs to answer. */
export type CallSubject =
  | { readonly kind: 'alarm'; readonly alarmId: number }
  | { readonly kind: 'notice'; readonly noticeId: number }

/** How far a call has gone: the page, then whatever reaches a phone, then everything there is. */
export type CallStep = 'page' | 'next-means' | 'everyone' | 'reminded'

/** One call that is under way. Times Unix ms. */
export interface Call {
  readonly subject: CallSubject
  /** The newest message about it that pages were sent; a page that has seen this id has received the call. */
  readonly messageId: number
  readonly urgency: Urgency
  readonly sinceMs: number
  /** When the first device with its sound on said that it had it; `null`: nobody has. */
  readonly receivedMs: number | null
  readonly step: CallStep
  readonly lastMs: number
  /** How often people were called so far. */
  readonly attempts: number
}

/** What a shell has to do now. */
export type CallEffect =
  | {
      readonly kind: 'call'
      readonly subject: CallSubject
      readonly means: readonly Means[]
      readonly loudness: Loudness
      readonly attempt: number
    }
  /** Whatever still sounds for it falls silent; the alarm itself may go on. */
  | { readonly kind: 'hush'; readonly subject: CallSubject }

/** Seconds; settable. The defaults of the first two are those of our alarm requirement (own targets, no source). */
export interface EscalationSettings {
  /** Without a device that received it: the next means. */
  readonly receiptS: number
  /** Without a person who answered: everything, loud. */
  readonly acknowledgeS: number
  /** And again, as often as this. */
  readonly repeatS: number
  /** An alarm that is `soon` reminds once after this. */
  readonly remindS: number
}

export const ESCALATION_DEFAULTS: EscalationSettings = {
  receiptS: 10,
  acknowledgeS: 60,
  repeatS: 60,
  remindS: 600,
}

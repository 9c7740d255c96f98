import type { Urgency } from '../plan/alarm-names.ts'
import type { AlarmLife } from './alarm-life.ts'
import type { Call, CallEffect } from './escalation-call.ts'

/** All calls that are under way. Nothing of it needs to be stored: `callsFor` makes it again from the desk. */
export interface Escalation {
  readonly calls: readonly Call[]
}

/** What the escalation must know of an alarm. */
export interface CallableAlarm {
  readonly alarmId: number
  readonly urgency: Urgency
  readonly state: AlarmLife['kind']
}

export type EscalationInput =
  /** An alarm changed and pages were sent message `messageId`. `listeners`: devices that would sound now. */
  | {
      readonly kind: 'alarm'
      readonly alarm: CallableAlarm
      readonly atMs: number
      readonly messageId: number
      readonly listeners: number
    }
  | {
      readonly kind: 'notice'
      readonly noticeId: number
      readonly urgency: Urgency
      readonly atMs: number
      readonly listeners: number
    }
  /** A device has shown everything up to this id and, if `sound`, sounded it. */
  | { readonly kind: 'seen'; readonly messageId: number; readonly sound: boolean; readonly atMs: number }
  | { readonly kind: 'tick'; readonly atMs: number }

export interface EscalationStep {
  readonly state: Escalation
  readonly effects: readonly CallEffect[]
}

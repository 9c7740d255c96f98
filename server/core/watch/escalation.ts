import type { Urgency } from '../plan/alarm-names.ts'
import type {
  Call,
  CallEffect,
  CallStep,
  CallSubject,
  EscalationSettings,
  Loudness,
  Means,
} from './escalation-call.ts'
import type { CallableAlarm, Escalation, EscalationInput, EscalationStep } from './escalation-input.ts'

export const noCalls: Escalation = { calls: [] }

/** Next calls and what to do now. Pure: the only times it knows are those of the input. */
export function stepEscalation(
  state: Escalation,
  input: EscalationInput,
  settings: EscalationSettings,
): EscalationStep {
  switch (input.kind) {
    case 'alarm':
      return afterAlarm(state, input)
    case 'notice':
      return isSounding(input.urgency)
        ? begin(state, { kind: 'notice', noticeId: input.noticeId }, { ...input, messageId: input.noticeId })
        : { state, effects: [] }
    case 'seen':
      return { state: { calls: state.calls.map((call) => received(call, input)) }, effects: [] }
    case 'tick':
      return tick(state, input.atMs, settings)
    default:
      return input satisfies never
  }
}

/** Urgencies that make a sound at all; what is for the morning or the log waits to be read. */
const isSounding = (urgency: Urgency): boolean => urgency === 'at-once' || urgency === 'soon'

const isSame = (a: CallSubject, b: CallSubject): boolean =>
  a.kind === 'alarm'
    ? b.kind === 'alarm' && a.alarmId === b.alarmId
    : b.kind === 'notice' && a.noticeId === b.noticeId

function afterAlarm(state: Escalation, input: EscalationInput & { kind: 'alarm' }): EscalationStep {
  const { alarmId, urgency } = input.alarm
  const subject: CallSubject = { kind: 'alarm', alarmId }
  return isCalling(input.alarm) ? begin(state, subject, { ...input, urgency }) : end(state, subject)
}

const isCalling = (alarm: CallableAlarm): boolean =>
  alarm.state === 'unacknowledged' && isSounding(alarm.urgency)

interface Beginning {
  readonly messageId: number
  readonly urgency: Urgency
  readonly atMs: number
  readonly listeners: number
}

/** Calls the page and, when nobody there would hear it, the next means without waiting. */
function begin(state: Escalation, subject: CallSubject, first: Beginning): EscalationStep {
  const step: CallStep = first.listeners > 0 ? 'page' : 'next-means'
  const call: Call = {
    subject,
    messageId: first.messageId,
    urgency: first.urgency,
    sinceMs: first.atMs,
    receivedMs: null,
    step,
    lastMs: first.atMs,
    attempts: 1,
  }
  const others = state.calls.filter((c) => !isSame(c.subject, subject))
  return { state: { calls: [...others, call] }, effects: [effectOf(call)] }
}

function end(state: Escalation, subject: CallSubject): EscalationStep {
  const calls = state.calls.filter((call) => !isSame(call.subject, subject))
  if (calls.length === state.calls.length) return { state, effects: [] }
  return { state: { calls }, effects: [{ kind: 'hush', subject }] }
}

/** Seen without sound is not received: a muted page in an empty room has shown it to nobody. */
function received(call: Call, seen: EscalationInput & { kind: 'seen' }): Call {
  if (!seen.sound || call.receivedMs !== null || seen.messageId < call.messageId) return call
  return { ...call, receivedMs: seen.atMs }
}

function tick(state: Escalation, atMs: number, settings: EscalationSettings): EscalationStep {
  const next = state.calls.map((call) => ({ before: call, step: dueStep(call, atMs, settings) }))
  const calls = next
    .map(({ before, step }) => (step === null ? before : again(before, step, atMs)))
    .filter((call) => !isOver(call))
  const effects = next.flatMap(({ before, step }) =>
    step === null ? [] : [effectOf(again(before, step, atMs))],
  )
  return { state: { calls }, effects }
}

const again = (call: Call, step: CallStep, atMs: number): Call => ({
  ...call,
  step,
  lastMs: atMs,
  attempts: call.attempts + 1,
})

/** A notice is over once somebody has it or the next means was tried; an alarm that is `soon`, once it has reminded. */
function isOver(call: Call): boolean {
  if (call.subject.kind === 'notice') return call.receivedMs !== null || call.step !== 'page'
  return call.step === 'reminded'
}

/** The step that is due now, or `null` while there is nothing to do but wait. */
function dueStep(call: Call, atMs: number, settings: EscalationSettings): CallStep | null {
  const ageMs = atMs - call.sinceMs
  const isUnheard = call.receivedMs === null && ageMs >= settings.receiptS * 1000
  const next = call.step === 'page' && isUnheard ? 'next-means' : null
  if (call.subject.kind === 'notice') return next
  if (call.urgency === 'soon') return ageMs >= settings.remindS * 1000 ? 'reminded' : next
  if (call.step === 'everyone') return atMs - call.lastMs >= settings.repeatS * 1000 ? 'everyone' : null
  return ageMs >= settings.acknowledgeS * 1000 ? 'everyone' : next
}

const effectOf = (call: Call): CallEffect => ({
  kind: 'call',
  subject: call.subject,
  means: meansOf(call.step),
  loudness: loudnessOf(call),
  attempt: call.attempts,
})

function meansOf(step: CallStep): readonly Means[] {
  switch (step) {
    case 'page':
      return ['page']
    case 'next-means':
    case 'reminded':
      return ['page', 'push']
    case 'everyone':
      return ['page', 'push', 'lamp', 'webhook']
    default:
      return step satisfies never
  }
}

function loudnessOf(call: Call): Loudness {
  if (call.urgency !== 'at-once') return 'tone'
  return call.step === 'everyone' ? 'loud' : 'repeat'
}

/**
 * The calls that are under way after a restart, as if nobody had received any; `sinceMs` is when each alarm was
 * raised. The next tick takes them up.
 */
export const callsFor = (
  alarms: readonly (CallableAlarm & { readonly sinceMs: number })[],
  lastMessageId: number,
): Escalation => ({
  calls: alarms.filter(isCalling).map(({ alarmId, urgency, sinceMs }): Call => ({
    subject: { kind: 'alarm', alarmId },
    messageId: lastMessageId,
    urgency,
    sinceMs,
    receivedMs: null,
    step: 'page',
    lastMs: sinceMs,
    attempts: 1,
  })),
})

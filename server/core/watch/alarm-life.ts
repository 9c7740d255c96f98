import type { AlarmName } from '../plan/alarm-names.ts'
import { mayBeShelved, shelfRefusal } from './alarm-shelf.ts'

/**
 * Where one alarm stands, after the state diagram of ISA-18.2 / IEC 62682. `sinceMs`: when this state began,
 * Unix ms. A shelved or out-of-service alarm goes on being judged below; `active` says how it stands there.
 */
export type AlarmLife =
  | { readonly kind: 'normal' }
  | { readonly kind: 'unacknowledged'; readonly sinceMs: number }
  | { readonly kind: 'acknowledged'; readonly sinceMs: number; readonly who: string | null }
  | { readonly kind: 'returned-unacknowledged'; readonly sinceMs: number }
  | { readonly kind: 'shelved'; readonly sinceMs: number; readonly untilMs: number; readonly active: boolean }
  | { readonly kind: 'out-of-service'; readonly sinceMs: number; readonly active: boolean }

/** What the bath does to an alarm; never refused. `worsened`: the same alarm now needs a person sooner. */
export type LifeFact = {
  readonly kind: 'raised' | 'cleared' | 'worsened' | 'tick'
  readonly atMs: number
}

/** What a person does to an alarm; may be refused. */
export type LifeAct =
  | { readonly kind: 'acknowledge'; readonly atMs: number; readonly who: string | null }
  | { readonly kind: 'shelve'; readonly atMs: number; readonly minutes: number }
  | { readonly kind: 'unshelve' | 'out-of-service' | 'in-service'; readonly atMs: number }

/** The next life, or one sentence that says why the act is not possible. */
export type LifeStep =
  | { readonly ok: true; readonly life: AlarmLife }
  | { readonly ok: false; readonly why: string }

export const NORMAL: AlarmLife = { kind: 'normal' }

/** Whether the bath still is as the alarm says, whatever a person did about it. */
export function isActive(life: AlarmLife): boolean {
  switch (life.kind) {
    case 'normal':
    case 'returned-unacknowledged':
      return false
    case 'unacknowledged':
    case 'acknowledged':
      return true
    case 'shelved':
    case 'out-of-service':
      return life.active
    default:
      return life satisfies never
  }
}

/** Next life after a fact. The same fact again changes nothing and gives the same object. */
export function afterFact(life: AlarmLife, fact: LifeFact): AlarmLife {
  switch (fact.kind) {
    case 'raised':
      return afterRaised(life, fact.atMs)
    case 'cleared':
      return afterCleared(life, fact.atMs)
    case 'worsened':
      return isActive(life) && life.kind !== 'unacknowledged' && life.kind !== 'out-of-service'
        ? { kind: 'unacknowledged', sinceMs: fact.atMs }
        : life
    case 'tick':
      return life.kind === 'shelved' && fact.atMs >= life.untilMs ? laidBare(life.active, life.untilMs) : life
    default:
      return fact.kind satisfies never
  }
}

function afterRaised(life: AlarmLife, atMs: number): AlarmLife {
  if (isActive(life)) return life
  if (life.kind === 'shelved' || life.kind === 'out-of-service') return { ...life, active: true }
  return { kind: 'unacknowledged', sinceMs: atMs }
}

function afterCleared(life: AlarmLife, atMs: number): AlarmLife {
  if (!isActive(life)) return life
  if (life.kind === 'shelved' || life.kind === 'out-of-service') return { ...life, active: false }
  return life.kind === 'acknowledged' ? NORMAL : { kind: 'returned-unacknowledged', sinceMs: atMs }
}

/** What comes out from under a shelf: an alarm still active wants its person again. */
const laidBare = (active: boolean, atMs: number): AlarmLife =>
  active ? { kind: 'unacknowledged', sinceMs: atMs } : NORMAL

/** Next life after what a person did, or why it can't be done. */
export function afterAct(alarm: AlarmName, life: AlarmLife, act: LifeAct): LifeStep {
  switch (act.kind) {
    case 'acknowledge':
      return acknowledge(alarm, life, act.atMs, act.who)
    case 'shelve':
      return shelve(alarm, life, act.atMs, act.minutes)
    case 'unshelve':
      return life.kind === 'shelved'
        ? { ok: true, life: laidBare(life.active, act.atMs) }
        : { ok: false, why: `${alarm} is not shelved, so it can't be taken off the shelf` }
    case 'out-of-service':
      return takeOut(alarm, life, act.atMs)
    case 'in-service':
      return life.kind === 'out-of-service'
        ? { ok: true, life: laidBare(life.active, act.atMs) }
        : { ok: false, why: `${alarm} is in service already` }
    default:
      return act satisfies never
  }
}

function acknowledge(alarm: AlarmName, life: AlarmLife, atMs: number, who: string | null): LifeStep {
  switch (life.kind) {
    case 'unacknowledged':
      return { ok: true, life: { kind: 'acknowledged', sinceMs: atMs, who } }
    case 'returned-unacknowledged':
      return { ok: true, life: NORMAL }
    case 'acknowledged':
      return { ok: false, why: `${alarm} was acknowledged already${life.who ? ` by ${life.who}` : ''}` }
    case 'normal':
      return { ok: false, why: `${alarm} is over and needs no acknowledgement` }
    case 'shelved':
      return { ok: false, why: `${alarm} is shelved; take it off the shelf first` }
    case 'out-of-service':
      return { ok: false, why: `${alarm} is out of service; put it back in service first` }
    default:
      return life satisfies never
  }
}

function shelve(alarm: AlarmName, life: AlarmLife, atMs: number, minutes: number): LifeStep {
  const refusal = shelfRefusal(alarm, minutes)
  if (refusal !== null) return { ok: false, why: refusal }
  if (life.kind === 'out-of-service')
    return { ok: false, why: `${alarm} is out of service and makes no sound, so it can't be shelved` }
  const untilMs = atMs + minutes * 60_000
  return { ok: true, life: { kind: 'shelved', sinceMs: atMs, untilMs, active: isActive(life) } }
}

function takeOut(alarm: AlarmName, life: AlarmLife, atMs: number): LifeStep {
  if (!mayBeShelved(alarm)) return { ok: false, why: `${alarm} is never taken out of service` }
  if (life.kind === 'out-of-service') return { ok: false, why: `${alarm} is out of service already` }
  return { ok: true, life: { kind: 'out-of-service', sinceMs: atMs, active: isActive(life) } }
}

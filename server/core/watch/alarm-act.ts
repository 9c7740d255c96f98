import { type AlarmEntry, living } from './alarm-entry.ts'
import { type LifeAct, afterAct } from './alarm-life.ts'

/** What came of a person's act on an alarm: how the alarm is now and by what word it is told, or why not. */
export type ActStep =
  | { readonly ok: true; readonly entry: AlarmEntry; readonly change: ActChange }
  | { readonly ok: false; readonly why: string }

export type ActChange = 'acknowledged' | 'shelved' | 'unshelved' | 'out-of-service' | 'in-service'

export function actOn(entry: AlarmEntry, done: LifeAct): ActStep {
  const step = afterAct(entry.alarm, entry.life, done)
  if (!step.ok) return step
  const after = { ...living(entry, step.life), ...acknowledgement(done) }
  return { ok: true, entry: after, change: changeOf(done) }
}

const acknowledgement = (done: LifeAct): Partial<AlarmEntry> =>
  done.kind === 'acknowledge' ? { acknowledgedMs: done.atMs, acknowledgedBy: done.who } : {}

function changeOf(done: LifeAct): ActChange {
  switch (done.kind) {
    case 'acknowledge':
      return 'acknowledged'
    case 'shelve':
      return 'shelved'
    case 'unshelve':
      return 'unshelved'
    case 'out-of-service':
    case 'in-service':
      return done.kind
    default:
      return done satisfies never
  }
}

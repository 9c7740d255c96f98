import { stepDesk } from '#core/watch/alarm-desk'
import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { AlarmHappening } from '#core/watch/happening'

/** An alarm that nobody knew of, with what was heard when it was raised. */
export interface FoundAlarm {
  readonly entry: AlarmEntry
  readonly raised: AlarmHappening
}

/**
 * What a fold of an ended batch found that has no row yet, numbered from `nextAlarmId` on. Only alarms that stood in
 * `stretch`, where readings came late: elsewhere the live watch has judged the same readings, and a second of
 * difference must not make a second row. Rows that are there stay as they were told.
 */
export function foundLater(
  known: readonly AlarmEntry[],
  happenings: readonly AlarmHappening[],
  stretch: { readonly fromMs: number; readonly toMs: number },
  nextAlarmId: number,
): readonly FoundAlarm[] {
  let desk = { entries: known, nextAlarmId }
  const raised = new Map<number, AlarmHappening>()
  for (const happening of happenings) {
    const isThere = happening.atMs >= stretch.fromMs && happening.sinceMs <= stretch.toMs
    if (happening.change === 'raised' && !isThere) continue
    const isNew = desk.nextAlarmId
    desk = stepDesk(desk, { kind: 'happening', happening, late: true }).desk
    if (desk.nextAlarmId > isNew) raised.set(isNew, happening)
  }
  const found = desk.entries.filter((entry) => raised.has(entry.alarmId))
  return found.map((entry) => ({ entry, raised: raised.get(entry.alarmId)! }))
}

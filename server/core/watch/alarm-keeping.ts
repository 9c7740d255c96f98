import type { AlarmDesk } from './alarm-desk.ts'
import type { AlarmEntry } from './alarm-entry.ts'
import { isActive } from './alarm-life.ts'

/** Entries a page shows: whatever is not over and done with. */
export const openEntries = (desk: AlarmDesk): readonly AlarmEntry[] =>
  desk.entries.filter((entry) => entry.life.kind !== 'normal')

/** Drops what was over and done with before this moment, so that the desk does not grow for ever. */
export const forgetBefore = (desk: AlarmDesk, beforeMs: number): AlarmDesk => ({
  ...desk,
  entries: desk.entries.filter(
    (e) => e.life.kind !== 'normal' || e.clearedMs === null || e.clearedMs >= beforeMs,
  ),
})

/** Whether the alarm stands now, whatever was done about it. */
export const isStanding = (entry: AlarmEntry): boolean => entry.clearedMs === null && isActive(entry.life)

import { type AlarmName, NEVER_SHELVED } from '../plan/alarm-names.ts'

/** Whether a person may shelve this alarm or take it out of service. */
export const mayBeShelved = (alarm: AlarmName): boolean => !NEVER_SHELVED.includes(alarm)

/**
 * Longest time on the shelf, minutes. Long enough for a stir or a slow top-up; a shelf that lasts the night
 * would be out of service by another name (our choice, no source).
 */
export const MAX_SHELF_MIN = 120

/** One sentence when the alarm can't be shelved for so long, else `null`. */
export function shelfRefusal(alarm: AlarmName, minutes: number): string | null {
  if (!mayBeShelved(alarm)) return `${alarm} is never shelved: acknowledge it and go to the pot`
  if (Number.isFinite(minutes) && minutes > 0 && minutes <= MAX_SHELF_MIN) return null
  return `an alarm is shelved for more than 0 and at most ${MAX_SHELF_MIN} minutes, not for ${minutes}`
}

import type { AlarmHappening } from '#core/watch/happening'

/** The epoch of made-up alarm days, Unix ms. */
export const ALARM_DAY_MS = 1_700_000_000_000

/** Heron a degree over its window at this minute of the day, or whatever `more` makes of it. */
export const alarmHappening = (atMin: number, more: Partial<AlarmHappening> = {}): AlarmHappening => ({
  kind: 'alarm',
  alarm: 'above-window',
  change: 'raised',
  atMs: ALARM_DAY_MS + atMin * 60_000,
  sinceMs: ALARM_DAY_MS + (atMin - 1) * 60_000,
  potId: 'heron',
  stageId: 'dye',
  urgency: 'soon',
  tempC: 73.1,
  limitC: 72,
  rateCPerMin: 0.2,
  lastReadingMs: ALARM_DAY_MS + atMin * 60_000,
  peakC: 73.1,
  expectedMs: null,
  dial: null,
  potIds: ['heron'],
  reason: null,
  ...more,
})

import type { AlarmMessage } from '#core/wire/live'

/** Heron over its ceiling, raised and unanswered, or whatever `more` makes of it. */
export const alarmMessage = (more: Partial<AlarmMessage> = {}): AlarmMessage => ({
  id: 1,
  alarmId: 1,
  alarm: 'above-ceiling',
  urgency: 'at-once',
  change: 'raised',
  state: 'unacknowledged',
  pot: 'heron',
  batch: 7,
  stage: 'dye',
  tempC: 76.4,
  limitC: 76,
  sinceAt: '2026-03-12T14:32:00.000Z',
  raisedAt: '2026-03-12T14:32:05.000Z',
  clearedAt: null,
  acknowledgedAt: null,
  acknowledgedBy: null,
  text: 'Heron: 76.4 °C, ceiling 76.0. Turn the burner down or off and lift the lid.',
  ...more,
})

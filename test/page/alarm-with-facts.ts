import type { AlarmMessage } from '#core/wire/live'
import { madeUpAlarm } from '../kit/page-stove.ts'

/** As the real server sends it: with the facts that each page words for its own person. */
export const alarmWithFacts = (nowMs: number): AlarmMessage => ({
  ...madeUpAlarm('otter', 5, nowMs),
  facts: {
    kind: 'alarm',
    alarm: 'above-ceiling',
    change: 'raised',
    atMs: nowMs,
    sinceMs: nowMs - 60_000,
    potId: 'otter',
    stageId: 'dye',
    urgency: 'at-once',
    tempC: 77.3,
    limitC: 76,
    rateCPerMin: 0.5,
    lastReadingMs: nowMs,
    peakC: 77.3,
    expectedMs: null,
    dial: 7.5,
    potIds: ['otter'],
    reason: 'burner-up',
  },
})

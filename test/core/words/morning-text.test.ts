import { expect, test } from 'vitest'
import type { MorningItem } from '#core/watch/morning-page'
import { morningText } from '#core/words/morning-text'
import type { Person } from '#core/words/person'

const EIGHT = Date.parse('2026-03-12T20:00:00Z')
const HOUR = 3_600_000
const NAMES = { pots: { heron: 'Heron' }, stages: { dye: 'Root bath' } }
const CELSIUS: Person = { unit: 'C', zone: 'UTC', language: 'en' }
const FAHRENHEIT: Person = { unit: 'F', zone: 'America/New_York', language: 'en' }

const GERMAN: Person = { unit: 'C', zone: 'UTC', language: 'de-DE' }

const at = { potId: 'heron', batchId: 7, stageId: 'dye' }
const ALARM: MorningItem = {
  kind: 'alarm',
  alarm: 'above-window',
  urgency: 'soon',
  potId: 'heron',
  stageId: 'dye',
  times: 2,
  firstSinceMs: EIGHT,
  lastClearedMs: EIGHT + HOUR,
  peakC: 73.1,
  limitC: 72,
  isAcknowledged: true,
}

test('an alarm: how often, from when to when, the worst and the limit', () => {
  expect(morningText(ALARM, NAMES, CELSIUS)).toBe(
    'Heron: too warm for the window 2 times from 20:00 to 21:00, at the worst 73.1 °C (limit 72.0).',
  )
  const open: MorningItem = { ...ALARM, times: 1, lastClearedMs: null, isAcknowledged: false }
  expect(morningText(open, NAMES, CELSIUS)).toBe(
    'Heron: too warm for the window since 20:00, and still, at the worst 73.1 °C (limit 72.0). Nobody has looked at it.',
  )
})

test('the same in German', () => {
  expect(morningText(ALARM, NAMES, GERMAN)).toBe(
    'Heron: zu warm für das Fenster, 2-mal von 20:00 bis 21:00, am schlimmsten 73,1 °C (Grenze 72,0).',
  )
  const open: MorningItem = { ...ALARM, times: 1, lastClearedMs: null, isAcknowledged: false }
  expect(morningText(open, NAMES, GERMAN)).toBe(
    'Heron: zu warm für das Fenster, seit 20:00, noch immer, am schlimmsten 73,1 °C (Grenze 72,0). Niemand hat danach gesehen.',
  )
  const cooled = { kind: 'cooled-unlike-plan', ...at, timesAsFast: 2.53, reason: 'lid-off' } as const
  expect(morningText(cooled, NAMES, GERMAN)).toBe(
    'Heron: etwa 2,5-mal so schnell abgekühlt, wie dieser Topf es sollte. Ist der Deckel ab?',
  )
})

test('in the unit and the zone of the person', () => {
  // 73.1 °C = 73.1 · 9/5 + 32 = 163.58 °F; 20:00 UTC is 16:00 in New York in March, summer time since the 8th.
  expect(morningText(ALARM, NAMES, FAHRENHEIT)).toContain('from 16:00 to 17:00, at the worst 163.6 °F')
})

// The seven-minute dip of the dyers' own stories: 53 of 60 min in a window of 78–86 °C, lowest 76.2 °C.
test('a hold that fell short is told with all its minutes and its stage', () => {
  const bins = {
    requiredS: 3600,
    inWindowS: 3180,
    aboveWindowS: 0,
    belowWindowS: 420,
    aboveCeilingS: 0,
    unknownS: 0,
    goodsOutS: 0,
  }
  const item: MorningItem = { kind: 'hold-short', ...at, bins, minC: 76.2, maxC: 82.4, windowC: [78, 86] }
  const text = morningText(item, NAMES, CELSIUS)
  expect(text).toMatch(/^Heron, Root bath, planned for 60 min: 60 min by the clock: 53 in the window/)
  expect(text).toContain('7 below (lowest 76.2 °C, 1.8 °C under)')
})

test('cooled faster or more slowly than the pot should, with a question where there is one', () => {
  const item = { kind: 'cooled-unlike-plan', ...at, timesAsFast: 2.53, reason: 'lid-off' } as const
  expect(morningText(item, NAMES, CELSIUS)).toBe(
    'Heron: cooled about 2.5 times as fast as this pot should. Is the lid off?',
  )
  expect(morningText({ ...item, timesAsFast: 0.5, reason: null }, NAMES, CELSIUS)).toBe(
    'Heron: cooled about 2.0 times as slowly as this pot should.',
  )
})

test('when the bath was cool enough, or that it is not yet', () => {
  const item = { kind: 'cooled', ...at, coolToC: 40, reachedMs: EIGHT + 4 * HOUR, lastC: 31.2 } as const
  expect(morningText(item, NAMES, CELSIUS)).toBe('Heron: down to 40.0 °C at 00:00. Now 31.2 °C.')
  expect(morningText({ ...item, reachedMs: null, lastC: null }, NAMES, CELSIUS)).toBe(
    'Heron: not yet down to 40.0 °C.',
  )
})

test('gaps, what was due, and probes to be compared', () => {
  const gap = { kind: 'gap', potId: 'heron', fromMs: EIGHT, toMs: EIGHT + 85 * 60_000 } as const
  expect(morningText(gap, NAMES, CELSIUS)).toBe('Heron: no readings from 20:00 to 21:25 (85 min).')
  const due = { kind: 'notice', notice: 'out-by-due', potId: 'heron', atMs: EIGHT } as const
  expect(morningText(due, NAMES, CELSIUS)).toBe('Heron: the goods were due out at 20:00.')
  const probe = { kind: 'probe-check-due', probe: 'p1', knownMs: 0, checkedMs: null } as const
  expect(morningText(probe, NAMES, CELSIUS)).toBe(
    'The probe p1 has never been compared: check it in ice water and in boiling water, or beside a good thermometer.',
  )
})

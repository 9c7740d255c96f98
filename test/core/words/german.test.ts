import { expect, test } from 'vitest'
import { ALARM_NAMES, type AlarmName, NOTICE_NAMES } from '#core/plan/alarm-names'
import type { AlarmHappening, NoticeHappening } from '#core/watch/happening'
import { alarmText } from '#core/words/alarm-text'
import { noticeText } from '#core/words/notice-text'
import type { Person } from '#core/words/person'

const AT = Date.UTC(2026, 2, 12, 14, 32, 5)
const german: Person = { unit: 'C', zone: 'Europe/Berlin', language: 'de-AT' }
const english: Person = { ...german, language: 'en' }
const NAMES = { pots: { heron: 'Heron', wren: 'Wren' }, stages: { dye: 'Wurzelbad' }, contents: {} }

const happening = (alarm: AlarmName, more: Partial<AlarmHappening> = {}): AlarmHappening => ({
  kind: 'alarm',
  alarm,
  change: 'raised',
  atMs: AT,
  sinceMs: AT - 5000,
  potId: 'heron',
  stageId: 'dye',
  urgency: 'at-once',
  tempC: 71.8,
  limitC: 71,
  rateCPerMin: 0.6,
  lastReadingMs: AT,
  peakC: 71.8,
  expectedMs: AT + 600_000,
  dial: 7,
  potIds: ['heron', 'wren'],
  reason: null,
  ...more,
})

test('an alarm in German says pot, number with a decimal comma, limit, since when, and what to do', () => {
  expect(alarmText(happening('above-ceiling'), NAMES, german)).toBe(
    'Heron: 71,8 °C, Obergrenze 71,0, steigt um 0,6 °C je Minute, darüber seit 15:32. Regler zurück- oder abdrehen und Deckel abheben.',
  )
})

test.each(ALARM_NAMES)('%s in German names the pot and is not the English sentence', (alarm) => {
  const sentence = alarmText(happening(alarm), NAMES, german)
  expect(sentence).toContain('Heron')
  expect(sentence).not.toBe(alarmText(happening(alarm), NAMES, english))
  expect(sentence).not.toMatch(/null|undefined|\bthe\b|\bsince\b/)
  expect(alarmText(happening(alarm, { change: 'cleared' }), NAMES, german)).toMatch(/^Heron: „.+“ ist vorbei/)
})

test('what is not known is left out of a sentence, not said as nothing', () => {
  const silent = happening('probe-silent', { tempC: null, lastReadingMs: null, dial: null })
  expect(alarmText(silent, NAMES, german)).toMatch(/^Heron: seit 5 s keine Messwerte\. \S/)
  expect(alarmText(happening('probe-silent'), NAMES, german)).toContain(
    'Zuletzt 71,8 °C um 15:32, Regler notiert auf 7.',
  )
})

test.each(NOTICE_NAMES)('the notice %s in German names the pot', (notice) => {
  const said = {
    kind: 'notice',
    notice,
    atMs: AT,
    potId: 'heron',
    stageId: 'dye',
    tempC: 71.8,
    dueMs: AT,
  } as const
  expect(noticeText(said, NAMES, german)).toContain('Heron')
  expect(noticeText(said, NAMES, german)).not.toBe(noticeText(said, NAMES, english))
})

const turnDown = (turn: Partial<NonNullable<NoticeHappening['turn']>>): NoticeHappening => ({
  kind: 'notice',
  notice: 'turn-down-now',
  atMs: AT,
  potId: 'heron',
  stageId: 'dye',
  tempC: 67,
  turn: { fromDial: 8, toDial: 3.5, peakC: 71, isLearned: true, ...turn },
})

test('turn down now names the marks and what comes of it, in both languages', () => {
  expect(noticeText(turnDown({}), NAMES, english)).toBe(
    'Heron: 67.0 °C. Turn down from 8 to about 3½ now; it coasts to 71.0 °C.',
  )
  expect(noticeText(turnDown({}), NAMES, german)).toBe(
    'Heron: 67,0 °C. Jetzt von 8 auf etwa 3½ zurückdrehen; es steigt noch bis 71,0 °C.',
  )
  expect(noticeText(turnDown({ fromDial: null }), NAMES, english)).toContain('Turn down to about 3½ now')
})

test('a mark that is not learned is asked, not told, in both languages', () => {
  expect(noticeText(turnDown({ isLearned: false }), NAMES, english)).toMatch(
    /coast on into the window\. To about 3½\? This burner is not learned yet\.$/,
  )
  expect(noticeText(turnDown({ isLearned: false, toDial: null }), NAMES, german)).toMatch(
    /Auf welchen Strich\? Diese Platte ist noch nicht eingelernt\.$/,
  )
  expect(noticeText(turnDown({ toDial: null }), NAMES, english)).not.toContain('?')
})

test('with the goods in, the reached window says what the hold waits for, in both languages', () => {
  const said: NoticeHappening = {
    kind: 'notice',
    notice: 'at-window',
    atMs: AT,
    potId: 'heron',
    stageId: 'dye',
    tempC: 65.2,
  }
  const follows = { ...said, holdFollows: true } as const
  expect(noticeText(said, NAMES, english)).toMatch(/65\.2 °C\. The goods can go in\.$/)
  expect(noticeText(follows, NAMES, english)).toMatch(/65\.2 °C\. The hold counts once .* 3 minutes\.$/)
  expect(noticeText(said, NAMES, german)).toMatch(/65,2 °C\. Das Färbegut kann hinein\.$/)
  expect(noticeText(follows, NAMES, german)).toMatch(/Die Haltezeit zählt, sobald .* 3 Minuten/)
})

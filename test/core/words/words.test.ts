import { expect, test } from 'vitest'
import type { AlarmHappening } from '#core/watch/happening'
import { alarmAct } from '#core/words/alarm-act'
import { alarmText } from '#core/words/alarm-text'
import { holdSentence } from '#core/words/hold-sentence'
import { potName } from '#core/words/names'
import {
  clockText,
  differenceText,
  lengthText,
  shortDifferenceText,
  shortTempText,
  tempText,
} from '#core/words/numbers'
import type { Person } from '#core/words/person'

const ann: Person = { unit: 'C', zone: 'UTC', language: 'en' }
const bob: Person = { unit: 'F', zone: 'America/Denver', language: 'en' }

// °C → °F pairs of the trade notes (arithmetic of the scale's definition).
test('tempText says one decimal in the unit of the person', () => {
  const pairs = { 60: '140.0', 66: '150.8', 71: '159.8', 78: '172.4', 82: '179.6', 93: '199.4' }
  for (const [tempC, tempF] of Object.entries(pairs)) {
    expect(tempText(Number(tempC), bob)).toBe(`${tempF} °F`)
    expect(tempText(Number(tempC), ann)).toBe(`${tempC}.0 °C`)
  }
})

test('a difference of 5 °C is 9 °F, not 41', () => {
  expect(differenceText(5, bob)).toBe('9.0 °F')
})

test('a language with a decimal comma gets one', () => {
  expect(tempText(71.8, { ...ann, language: 'de' })).toBe('71,8 °C')
})

test('a number just under zero is not minus zero', () => {
  expect(tempText(-0.04, ann)).toBe('0.0 °C')
})

test('clockText is the wall clock of the zone, also in the night when the hour comes twice', () => {
  // In Denver daylight-saving time ended on 1 November 2026 at 08:00 UTC (tz database).
  expect(clockText(Date.UTC(2026, 10, 1, 7, 30), bob)).toBe('01:30')
  expect(clockText(Date.UTC(2026, 10, 1, 8, 30), bob)).toBe('01:30')
  expect(clockText(Date.UTC(2026, 6, 1, 0, 5), ann)).toBe('00:05')
})

test('lengthText takes the unit that a person would', () => {
  expect([45_000, 240_000, 7_500_000, 7_200_000].map(lengthText)).toEqual([
    '45 s',
    '4 min',
    '2 h 5 min',
    '2 h',
  ])
})

const alarm: AlarmHappening = {
  kind: 'alarm',
  alarm: 'above-ceiling',
  change: 'raised',
  atMs: Date.UTC(2026, 2, 12, 14, 32, 5),
  sinceMs: Date.UTC(2026, 2, 12, 14, 32),
  potId: 'heron',
  stageId: 'dye',
  urgency: 'at-once',
  tempC: 71.8,
  limitC: 71,
  rateCPerMin: 0.6,
  lastReadingMs: Date.UTC(2026, 2, 12, 14, 32, 5),
  peakC: 71.8,
  expectedMs: null,
  dial: 7,
  potIds: ['heron'],
  reason: 'burner-up',
}
const names = { pots: { heron: 'Heron' }, contents: { heron: 'madder, wool' } }

test('an alarm says pot, fact, number, limit, since when, the reason as a question and what to do', () => {
  expect(alarmText(alarm, names, ann)).toBe(
    'Heron (madder, wool): 71.8 °C, ceiling 71.0, rising 0.6 °C a minute, over it since 14:32. ' +
      'Is the burner too high? Turn the burner down or off and lift the lid.',
  )
  expect(alarmText(alarm, names, bob)).toContain('161.2 °F, ceiling 159.8, rising 1.1 °F a minute')
})

// The trade notes' stories 1 and 5 ask for these names and numbers.
test('a cause over two pots says of each what it does or reads', () => {
  const both = { pots: { heron: 'Heron', wren: 'Wren' }, contents: {} }
  const cause = { ...alarm, sinceMs: alarm.atMs - 300_000, limitC: null, rateCPerMin: null } as const
  const wrong = {
    ...cause,
    alarm: 'wrong-burner',
    potIds: ['wren', 'heron'],
    reason: 'wrong-burner',
  } as const
  expect(alarmText(wrong, both, ann)).toContain(
    'Wren has been warming up since 14:27 and should not; Heron should, and does not. Is it the right burner?',
  )
  const swap = {
    ...cause,
    alarm: 'probes-swapped',
    potIds: ['heron', 'wren'],
    potTempsC: [88, 67.3],
  } as const
  expect(alarmText(swap, both, ann)).toContain('Heron reads 88.0 °C, Wren reads 67.3 °C: they changed places')
})

test('a silent probe says how long, the last value and what the burner is noted at', () => {
  const silent = {
    ...alarm,
    alarm: 'probe-silent',
    sinceMs: alarm.atMs - 180_000,
    lastReadingMs: alarm.atMs - 180_000,
  } as const
  const text = alarmText({ ...silent, reason: null }, names, ann)
  expect(text).toContain('no reading for 3 min. Last 71.8 °C at 14:29, burner noted at 7.')
})

const silent = (ageMs: number, language: string) => {
  const facts = { ...alarm, alarm: 'probe-silent', sinceMs: alarm.atMs - ageMs, reason: null } as const
  return alarmText(facts, names, { ...ann, language })
}

test('a time of about a minute is not counted in seconds', () => {
  expect([silent(62_000, 'en'), silent(50_000, 'en'), silent(30_000, 'en'), silent(95_000, 'en')]).toEqual([
    expect.stringContaining('no reading for about a minute.'),
    expect.stringContaining('no reading for about a minute.'),
    expect.stringContaining('no reading for 30 s.'),
    expect.stringContaining('no reading for 2 min.'),
  ])
  expect(silent(62_000, 'de')).toContain('seit etwa einer Minute keine Messwerte')
})

// The trade's own wish (story 1): "turn down to about 3½" where the pot has taught it.
test('what to do names the mark that the pot has taught, unless the dial stands beyond it or it is a guess', () => {
  const dial = { kind: 'too-warm', holdDial: 3.5, holdsC: [66, 69] } as const
  const act = (
    name: 'heading-above-window' | 'below-window' | 'above-ceiling',
    noted: number,
    isGuess = false,
  ) => alarmAct(name, { dial: noted, advice: { dial, sense: null, isGuess } }, ann)
  expect([act('heading-above-window', 5), act('below-window', 2)]).toEqual([
    'Turn the burner down to about 3½.',
    'Turn the burner up to about 3½, or put the lid on.',
  ])
  expect([act('heading-above-window', 3), act('heading-above-window', 5, true)]).toEqual([
    'Turn the burner down.',
    'Turn the burner down.',
  ])
  // Over the ceiling it is not about holding any more.
  expect(act('above-ceiling', 5)).toBe('Turn the burner down or off and lift the lid.')
  expect(alarmAct('heading-above-window', null, ann)).toBe('Turn the burner down.')
})

// The trade notes' own hold: 53 in the window, 7 below, lowest 76.2, which is 1.8 under 78.
test('holdSentence always gives the clock, the window and the worst', () => {
  const bins = {
    requiredS: 3600,
    inWindowS: 53 * 60,
    aboveWindowS: 0,
    belowWindowS: 420,
    aboveCeilingS: 0,
    unknownS: 0,
    goodsOutS: 0,
  }
  const extremes = { minC: 76.2, maxC: 81, windowC: [78, 86] } as const
  expect(holdSentence(bins, extremes, ann)).toBe(
    '60 min by the clock: 53 in the window, 7 below (lowest 76.2 °C, 1.8 °C under), 0 unknown. Not over the ceiling.',
  )
})

test('time over the ceiling counts as time above the window and is told by itself, with the highest', () => {
  const bins = {
    requiredS: 3600,
    inWindowS: 3000,
    aboveWindowS: 300,
    belowWindowS: 0,
    aboveCeilingS: 240,
    unknownS: 60,
    goodsOutS: 0,
  }
  expect(holdSentence(bins, { minC: 78, maxC: 91.5, windowC: [78, 86] }, ann)).toBe(
    '60 min by the clock: 50 in the window, 0 below, 9 above (highest 91.5 °C, 5.5 °C over), 1 unknown. ' +
      'Over the ceiling for 4 min.',
  )
})

test('a short temperature has a decimal only where there is one, in both units', () => {
  expect([72, 71.8].map((tempC) => shortTempText(tempC, ann))).toEqual(['72 °C', '71.8 °C'])
  expect([60, 72].map((tempC) => shortTempText(tempC, bob))).toEqual(['140 °F', '161.6 °F'])
  expect([5, 1].map((dropC) => shortDifferenceText(dropC, bob))).toEqual(['9 °F', '1.8 °F'])
})

test('a pot is named with what is in it, where that is known', () => {
  const pots = { heron: 'Heron' }
  expect(potName('heron', { pots, contents: { heron: 'madder, wool' } })).toBe('Heron (madder, wool)')
  expect(potName('heron', { pots, contents: { heron: '' } })).toBe('Heron')
  expect(potName('wren', { pots })).toBe('wren')
})

import { expect, test } from 'vitest'
import { readNumber } from '#core/measure/read-number'
import { DEFAULT_SETTINGS } from '../../../web/state/device-settings.ts'
import { catalogueFor } from '../../../web/view/words/catalogue-for.ts'
import { english } from '../../../web/view/words/english.ts'
import { german } from '../../../web/view/words/german.ts'
import { formatFor } from '../../../web/view/words/format.ts'
import { nextLines } from '../../../web/view/stove/next-lines.ts'
import { stageVerdict } from '../../../web/view/batch/stage-verdict.ts'
import { lineGuess } from '../../../web/view/probe/line-guess.ts'
import { spanWithin } from '../../../web/view/trace/zoom-buttons.tsx'
import { timeTicks } from '../../../web/view/trace/time-ticks.ts'
import { potAt, stageOf } from '../made-up.ts'

const c = formatFor(DEFAULT_SETTINGS, 'UTC')
const f = formatFor({ unit: 'F' }, 'UTC')
const NOW = Date.UTC(2026, 2, 3, 10)

test('5 °C reads as 41 °F, and 5 °C warmer is 9 °F warmer', () => {
  expect([c.temp(5), f.temp(5), f.drop(5), f.rate(-0.5)]).toEqual([
    '5.0 °C',
    '41.0 °F',
    '9.0 °F',
    '−0.9 °F/min',
  ])
  expect([c.range(80, 86), f.range(80, 86)]).toEqual(['80–86 °C', '176–186.8 °F'])
})

// In German 80.5 g stood in the field as 805, and 1100 g as 1.100, which reads as little more than a gram.
test('a weight in a field reads back as the same weight in every language', () => {
  for (const language of ['en', 'de'] as const) {
    const grams = formatFor({ unit: 'C' }, 'UTC', language)
    for (const weightG of [80.5, 1100, 0.25, 12_345.67])
      expect(readNumber(grams.weightField(weightG))).toBe(weightG)
    // An ounce is 28.349523125 g (the international avoirdupois ounce; from memory): 600 g are 21.16 of them.
    expect(formatFor({ unit: 'C', weights: 'us' }, 'UTC', language).weightField(600)).toBe('21.16')
  }
})

test('a price has two decimals or none, and its unit where the studio has said one', () => {
  // `EUR` and `DKK`: ISO 4217.
  const euro = formatFor({ unit: 'C', money: 'EUR' }, 'UTC', 'de')
  expect([euro.money(45.5), euro.money(1200), euro.money(3, 'DKK')]).toEqual([
    '45,50\u00a0EUR',
    '1.200\u00a0EUR',
    '3\u00a0DKK',
  ])
  expect([c.money(45.5), c.moneyUnit]).toEqual(['45.50', null])
})

test('a colour under zero has the same minus sign as a rate', () => {
  expect([c.amount(-3.2), c.rate(-0.5)]).toEqual(['−3.2', '−0.5 °C/min'])
})

test('numbers, dates and the core’s sentences follow the language, the unit does not', () => {
  const de = formatFor({ unit: 'F' }, 'Europe/Berlin', 'de')
  // 71.8 °C = 71.8 · 9/5 + 32 = 161.24 °F.
  expect([de.temp(71.8), de.drop(5), de.amount(1234.56, 2), de.rate(-0.5)]).toEqual([
    '161,2 °F',
    '9,0 °F',
    '1.234,56',
    '−0,9 °F/min',
  ])
  expect([de.date(NOW), de.day(NOW), de.when(NOW, NOW + 86_400_000)]).toEqual([
    '3. März 2026',
    'Di., 3. März, 11:00',
    '11:00 (Di)',
  ])
  expect([de.fixed(48, 2), de.dial(3.5), de.typed('80.5'), de.typed('a 1.2')]).toEqual([
    '48,00',
    '3,5',
    '80,5',
    'a 1.2',
  ])
  expect(de.person.language).toBe('de-DE')
})

test('every text of the pseudo language is marked, so that one that bypasses the catalogue stands out', () => {
  const texts = (words: unknown): string[] => {
    if (typeof words === 'string') return words === '' ? [] : [words]
    if (typeof words === 'function') return texts((words as (...a: unknown[]) => unknown)('a', 'b', 'c'))
    return Object.values(words as object).flatMap(texts)
  }
  const marked = texts(catalogueFor('pseudo'))
  expect(marked.length).toBe(texts(english).length)
  expect(marked.filter((text) => !/^\[.*\]$/s.test(text))).toEqual([])
})

/** Every text of a catalogue by its place in it; a function's by what it makes of its arguments. */
function textsOf(words: unknown, at = ''): readonly (readonly [at: string, text: string])[] {
  if (typeof words === 'string') return [[at, words]]
  if (typeof words === 'function')
    return textsOf((words as (...a: unknown[]) => unknown)('a', 'b', 'c', 'd'), at)
  return Object.entries(words as object).flatMap(([key, word]) => textsOf(word, `${at}.${key}`))
}

/** Whole texts that are the same word in both languages; texts without a word (signs, units) are let pass. */
const SAME = new Set(
  'Holdfast|a · Holdfast|English|Deutsch|Plan|Plan: a|Name|Broker|Station|Register|Modbus RTU (RS-485)'.split(
    '|',
  ),
)

test('no text of the German catalogue was left in English', () => {
  const inEnglish = new Map(textsOf(english))
  const left = textsOf(german).filter(
    ([at, text]) => text === inEnglish.get(at) && /[A-Za-z]{4}/.test(text) && !SAME.has(text),
  )
  expect(left).toEqual([])
})

test('no German text has words that only English has', () => {
  const strange = textsOf(german).filter(([, text]) =>
    /\b(the|and|with|this|that|your|you|is|are|of|to|for|from|not|no)\b/i.test(
      text.replace('time,temp_c,event', ''),
    ),
  )
  expect(strange).toEqual([])
})

test('what comes next stands with the nearest first', () => {
  const hold = {
    requiredS: 3600,
    inWindowS: 2460,
    aboveWindowS: 0,
    belowWindowS: 0,
    aboveCeilingS: 0,
    unknownS: 0,
    goodsOutS: 0,
    state: 'counting',
    startedMs: NOW - 2_460_000,
    doneMs: null,
    expectedDoneMs: NOW + 1_140_000,
    nextTurnMs: NOW + 240_000,
    outByMs: null,
  } as const
  expect(nextLines(potAt(NOW, { hold }), NOW, english, c)).toEqual([
    'Turn the goods in 4 min',
    'Hold done at 10:19 if it stays in (19 min)',
  ])
  expect(nextLines(potAt(NOW, { hold: { ...hold, nextTurnMs: NOW } }), NOW, english, c)[0]).toBe(
    'Turn the goods now',
  )
  const forecast = {
    reachesWindowMs: null,
    leavesWindowMs: NOW + 54_000,
    reachesCoolToMs: null,
    reachesCoolTo90Ms: null,
    peakC: 84,
  }
  expect(nextLines(potAt(NOW, { hold, forecast }), NOW, english, c)[0]).toBe(
    'Leaves the window in about 1 min at this course',
  )
})

test('a bath that is in its window is not told when it will be there', () => {
  const forecast = {
    reachesWindowMs: NOW + 60_000,
    leavesWindowMs: null,
    reachesCoolToMs: null,
    reachesCoolTo90Ms: null,
    peakC: 84,
  }
  expect(nextLines(potAt(NOW, { tempC: 80, forecast }), NOW, english, c)).toEqual([])
  expect(nextLines(potAt(NOW, { tempC: 79.9, forecast }), NOW, english, c)).toEqual([
    'Will be in the window at 10:01 (in 1 min)',
    'Left as it is, it goes up to about 84.0 °C',
  ])
})

test('a cool-down’s hour is told with its range', () => {
  const forecast = {
    reachesWindowMs: null,
    leavesWindowMs: null,
    reachesCoolToMs: NOW + 3_600_000,
    reachesCoolTo90Ms: [NOW + 3_000_000, NOW + 4_200_000] as const,
    peakC: null,
  }
  const pot = potAt(NOW, { stage: stageOf('cool'), forecast })
  expect(nextLines(pot, NOW, english, f)).toEqual(['At 86.0 °F between 10:50 and 11:10 (9 times in 10)'])
})

test('a short hold is told with what is missing, a full one with when it was full', () => {
  const mordant = stageOf('mordant')
  const bins = {
    requiredS: 3600,
    inWindowS: 3180,
    belowWindowS: 420,
    aboveWindowS: 0,
    aboveCeilingS: 0,
    unknownS: 0,
    goodsOutS: 0,
  }
  const outcome = { id: 'mordant', startedMs: 0, endedMs: 1, bins, minC: 78.2, maxC: 85.6, doneMs: null }
  const run = { id: 1, stageId: 'mordant', potId: 'wren', probe: 'wren', startedMs: 0, endedMs: NOW, outcome }
  expect(stageVerdict(mordant, run, english, c)).toBe(
    '60 min by the clock: 53 in the window, 7 below (lowest 78.2 °C, 1.8 °C under), 0 unknown. Not over the ceiling. Of the 60 min asked for, 7 min were not reached.',
  )
  const full = { ...run, outcome: { ...outcome, doneMs: NOW } }
  expect(stageVerdict(mordant, full, english, c)).toContain('The 60 min asked for were full at 10:00.')
  expect(stageVerdict(mordant, { ...run, outcome: null }, english, c)).toBe(english.batch.holdNever)
})

test('a line pattern is guessed from what the probe said, the decimal number first', () => {
  expect(['T1=21.4 C', '21.5', 'ch 2: 70.1 F', 'ready', '', '23'].map(lineGuess)).toEqual([
    'T1={tempC} C',
    '{tempC}',
    'ch 2: {tempF} F',
    '{tempC}',
    '{tempC}',
    '{tempC}',
  ])
})

test('time ticks are round where the person is, inside the span and not too many', () => {
  const zoneMs = 5.5 * 3_600_000
  const ticks = timeTicks(NOW, NOW + 6 * 3_600_000, 8, zoneMs)
  expect(ticks.length).toBeGreaterThan(3)
  expect(ticks.length).toBeLessThanOrEqual(9)
  expect(ticks.every((ms) => (ms + zoneMs) % 3_600_000 === 0)).toBe(true)
  expect(timeTicks(NOW, NOW, 8, 0)).toEqual([])
})

test('a closer look stays inside the stage and never gets narrower than two minutes', () => {
  const whole = { fromMs: 0, toMs: 3_600_000 }
  expect(spanWithin({ fromMs: -600_000, toMs: 600_000 }, whole)).toEqual({ fromMs: 0, toMs: 1_200_000 })
  expect(spanWithin({ fromMs: 10, toMs: 20 }, whole)).toEqual({ fromMs: 0, toMs: 120_000 })
  expect(spanWithin({ fromMs: 0, toMs: 4_000_000 }, whole)).toBe(null)
})

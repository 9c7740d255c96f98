import { expect, test } from 'vitest'
import type { PotAdvice } from '#core/watch/dial-advice'
import { adviceText, dialMarkText } from '#core/words/advice-text'

const celsius = { unit: 'C', zone: 'UTC', language: 'en' } as const
const fahrenheit = { ...celsius, unit: 'F' } as const

const heatUp: PotAdvice = {
  isGuess: false,
  sense: null,
  dial: {
    kind: 'heat-up',
    heatDial: null,
    holdDial: 3.5,
    turnDownAtC: 67,
    isNow: false,
    peakC: 71,
    holdsC: [68.2, 71.6],
    reachesMs: Date.UTC(2026, 0, 10, 14, 5),
  },
}

test('when to turn down, to what, and what comes of it, in the person’s unit', () => {
  expect(adviceText(heatUp, 'on', celsius)).toEqual([
    'Turn down to about 3½ at 67.0 °C; it will coast to 71.0 and hold between 68 and 72 °C. In the middle of the window at about 14:05.',
  ])
  expect(adviceText(heatUp, 'on', fahrenheit)[0]).toContain(
    'at 152.6 °F; it will coast to 159.8 and hold between 155 and 161 °F',
  )
})

test('what is not learned is called a guess, and what does not fit is asked first', () => {
  expect(adviceText({ ...heatUp, isGuess: true }, 'on', celsius)[0]).toMatch(/^A guess, /)
  const odd: PotAdvice = { ...heatUp, sense: { kind: 'loses-more', ratio: 2.13 } }
  expect(adviceText(odd, 'on', celsius)[0]).toBe(
    'This pot loses heat 2.1 times as fast as it should: is the lid off?',
  )
})

test('a dial that leads out of the window is told to be turned, one that stands well is left', () => {
  const hold = { kind: 'hold', holdDial: 3.5, holdsC: [68, 72], otherLid: { lid: 'off', dial: 5.5 } } as const
  const say = (more: { isSet: boolean; settlesC: number | null; leaves: 'top' | null }) =>
    adviceText({ isGuess: false, sense: null, dial: { ...hold, ...more } }, 'on', celsius)[0]
  expect(say({ isSet: false, settlesC: 83.2, leaves: 'top' })).toBe(
    'Turn down: about 3½ on the dial holds between 68 and 72 °C. As it is noted now the bath would drift to 83.2 °C. With the lid off it takes about 5½.',
  )
  expect(say({ isSet: true, settlesC: 70, leaves: null })).toMatch(/^The dial stands well: about 3½ holds/)
})

test('a place on a dial is read as one reads it', () => {
  expect([3.5, 0.25, 0.75, 4, 2.3, 35].map(dialMarkText)).toEqual(['3½', '¼', '¾', '4', '2.3', '35'])
})

import { expect, test } from 'vitest'
import type { PotAdvice } from '#core/watch/dial-advice'
import { adviceText } from '#core/words/advice-text'
import { dialMarkText } from '#core/words/numbers'

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
  expect([3.5, 0.25, 0.75, 4, 2.3, 35].map((dial) => dialMarkText(dial, celsius))).toEqual([
    '3½',
    '¼',
    '¾',
    '4',
    '2.3',
    '35',
  ])
})

const german = { ...celsius, language: 'de-DE' } as const

test('advice in German has its decimal comma and the same parts', () => {
  expect(adviceText(heatUp, 'on', german)).toEqual([
    'Bei 67,0 °C auf etwa 3½ zurückdrehen; das Bad steigt dann noch bis 71,0 und bleibt zwischen 68 und 72 °C. In der Mitte des Fensters etwa um 14:05.',
  ])
  const heats: PotAdvice = { ...heatUp, dial: { ...heatUp.dial!, heatDial: 9.3 } as PotAdvice['dial'] }
  expect(adviceText(heats, 'on', german)[0]).toContain('Mit etwa 9,3 aufheizen, dann bei 67,0 °C auf etwa 3½')
  const odd: PotAdvice = { ...heatUp, isGuess: true, sense: { kind: 'loses-more', ratio: 2.13 } }
  expect(adviceText(odd, 'off', german)).toEqual([
    'Dieser Topf verliert 2,1-mal so schnell Wärme, wie er sollte: zieht es, oder fehlt Wasser?',
    expect.stringMatching(/^Geschätzt, denn diese Platte ist noch nicht eingelernt: /),
  ])
})

test('German advice for a hold begins with the act when the dial is wrong', () => {
  const hold = { kind: 'hold', holdDial: 3.5, holdsC: [68, 72], otherLid: { lid: 'off', dial: 5.5 } } as const
  const say = (more: { isSet: boolean; settlesC: number | null; leaves: 'top' | 'bottom' | null }) =>
    adviceText({ isGuess: false, sense: null, dial: { ...hold, ...more } }, 'on', german)[0]
  expect(say({ isSet: false, settlesC: 83.2, leaves: 'top' })).toBe(
    'Zurückdrehen: mit etwa 3½ am Regler bleibt das Bad zwischen 68 und 72 °C. So, wie er notiert ist, liefe das Bad auf 83,2 °C. Ohne Deckel braucht es etwa 5½.',
  )
  expect(say({ isSet: false, settlesC: null, leaves: 'bottom' })).toContain('liefe das Bad aus dem Fenster')
  expect(say({ isSet: true, settlesC: 70, leaves: null })).toMatch(
    /^Der Regler steht gut: mit etwa 3½ bleibt/,
  )
})

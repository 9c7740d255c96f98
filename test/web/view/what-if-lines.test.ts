import { expect, test } from 'vitest'
import type { WhatIfAnswer } from '#core/wire/burner'
import { DEFAULT_SETTINGS } from '../../../web/state/device-settings.ts'
import { enHeat } from '../../../web/view/words/en-heat.ts'
import { formatFor } from '../../../web/view/words/format.ts'
import { whatIfLines } from '../../../web/view/heat/what-if-lines.ts'

const f = formatFor(DEFAULT_SETTINGS, 'UTC')
const draft = { litres: 16, lid: 'on', dial: 7, surroundingsC: 18, startC: 18, hours: 4 } as const
const answer: WhatIfAnswer = {
  isGuess: false,
  path: [],
  reachesS: { value: 2820, early90: 2600, late90: 3200 },
  leavesS: 4000,
  passesCeilingS: 4500,
  coolEnoughS: null,
  peakC: 92.4,
  steadyC: { value: 92.4, low90: 88, high90: 97 },
  boilingC: 100,
  holdDial: { value: 3.52, low90: 3.3, high90: 3.8 },
}
const goal = { windowC: [66, 72], ceilingC: 78 } as const

test('the curve is told in sentences, for those who can’t see it', () => {
  expect(whatIfLines(answer, draft, goal, enHeat, f)).toEqual([
    'In the window after 47 min (43 min to 53 min, nine times in ten).',
    'Leaves the window after 67 min if nobody touches it.',
    'Over the ceiling after 75 min.',
    'Highest 92.4 °C.',
    'Would settle at 92.4 °C (88.0 to 97.0).',
    'About 3½ on the dial (3.3 to 3.8) holds the middle of the window.',
  ])
})

test('a bath that stays, never arrives or would boil is said to', () => {
  const none = { ...answer, reachesS: null, leavesS: null, passesCeilingS: null }
  expect(whatIfLines(none, draft, goal, enHeat, f)[0]).toBe(enHeat.neverReaches)
  const inside = { ...none, reachesS: { value: 0, early90: 0, late90: 0 } }
  expect(whatIfLines(inside, { ...draft, startC: 70 }, goal, enHeat, f).slice(0, 2)).toEqual([
    enHeat.isIn,
    enHeat.stays,
  ])
  expect(whatIfLines({ ...none, steadyC: null }, draft, null, enHeat, f).at(-1)).toContain(
    'Would boil, at 100.0 °C',
  )
  expect(whatIfLines(none, { ...draft, startC: 80 }, { coolToC: 40 }, enHeat, f)[0]).toBe(enHeat.notCool)
})

import { expect, test } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../web/state/device-settings.ts'
import { differenceValue } from '../../../web/view/record/difference-words.ts'
import { english } from '../../../web/view/words/english.ts'
import { formatFor } from '../../../web/view/words/format.ts'

const f = formatFor(DEFAULT_SETTINGS, 'UTC')
const amount = (value: number | null) => differenceValue('amount', value, english, f)

test('a dye that a batch had nothing of was not used; what nobody wrote down is not said', () => {
  expect([amount(0), amount(null)]).toEqual(['not used', 'not said'])
})

// A kitchen scale shows 0.1 g: of 10 g for 1000 g of goods a hundredth of a per cent, of 333.3 g nobody's eye more.
test('hundredths of a per cent are told of small amounts only', () => {
  expect([amount(1.25), amount(33.33), amount(12)]).toEqual(['1.25 %', '33.3 %', '12 %'])
})

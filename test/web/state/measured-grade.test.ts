import { expect, test } from 'vitest'
import { NO_COLOURS, measuredGrade } from '../../../web/state/measured-grade.ts'

test('nothing is graded until all six numbers are those of a colour', () => {
  expect(measuredGrade('wash', NO_COLOURS)).toBeNull()
  expect(measuredGrade('wash', { before: ['50', '10', '8'], after: ['50', '10', ''] })).toBeNull()
  expect(measuredGrade('wash', { before: ['150', '10', '8'], after: ['50', '10', '8'] })).toBeNull()
  for (const odd of ['200', '-200', 'x'])
    for (const after of [
      ['50', odd, '8'],
      ['50', '10', odd],
    ])
      expect(measuredGrade('wash', { before: ['50', '10', '8'], after })).toBeNull()
})

// ISO 105-A05, section 8: a change of lightness alone counts in full, and ΔE_F 3.4 scores 3.
test('a wash is graded by the change of the goods, also with a decimal comma', () => {
  expect(measuredGrade('wash', { before: ['50', '0', '0'], after: ['53,4', '0', '0'] })).toBe('3')
  expect(measuredGrade('wash', { before: ['50', '10', '8'], after: ['50', '10', '8'] })).toBe('5')
})

// ISO 105-A04: ΔL* alone of 10 scores 6.1 − 1.45 ln 10 = 2.76 (score formula from memory), which is grade 3.
test('a rub is graded by what it leaves on white cloth', () => {
  expect(measuredGrade('rub', { before: ['90', '0', '0'], after: ['80', '0', '0'] })).toBe('3')
})

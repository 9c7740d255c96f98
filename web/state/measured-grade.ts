import type { Lab } from '#core/batch/colour'
import { type GreyGrade } from '#core/batch/grey-grades'
import { changeDifference, gradeOfScore, scoreOfDeltaEF, stainingScore } from '#core/batch/grey-scale'
import { readNumber } from '#core/measure/read-number'

/** L*, a*, b* as typed, before the test and after it. */
export interface TypedColours {
  readonly before: readonly string[]
  readonly after: readonly string[]
}

export const NO_COLOURS: TypedColours = { before: ['', '', ''], after: ['', '', ''] }

/** Tests whose grade two measured colours can give: a wash changes the goods, a rub stains a white cloth. */
export type MeasuredTest = 'wash' | 'rub'

export const isMeasuredTest = (test: string | undefined): test is MeasuredTest =>
  test === 'wash' || test === 'rub'

/** The grade on the grey scale; `null` until all six are numbers that a colour can have. */
export function measuredGrade(test: MeasuredTest, { before, after }: TypedColours): GreyGrade | null {
  const [was, is] = [labOf(before), labOf(after)]
  if (was === null || is === null) return null
  return gradeOfScore(test === 'wash' ? scoreOfDeltaEF(changeDifference(was, is)) : stainingScore(was, is))
}

function labOf(typed: readonly string[]): Lab | null {
  const [lightness, a, b] = typed.map((text) => readNumber(text.replace('−', '-')))
  if (typeof lightness !== 'number' || typeof a !== 'number' || typeof b !== 'number') return null
  return lightness < 0 || lightness > 100 || Math.abs(a) > 150 || Math.abs(b) > 150
    ? null
    : { lightness, a, b }
}

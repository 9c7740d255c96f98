import { readNumber } from '#core/measure/read-number'
import { useWords } from '../page-context.ts'
import type { Format } from '../words/format.ts'
import { TextField } from './field.tsx'

/** What was typed as a weight over 0. */
export interface TypedWeight {
  /** Grams, to the milligram; `null` while nothing stands there or it is no weight. */
  readonly weightG: number | null
  /** Something stands there and it is no weight. */
  readonly isWrong: boolean
}

/** `typed`: in the weight unit of this device. */
export function typedWeight(typed: string, f: Format): TypedWeight {
  const number = readNumber(typed)
  const isWeight = number !== null && number > 0
  return {
    weightG: isWeight ? Math.round(f.gramsOf(number) * 1000) / 1000 : null,
    isWrong: typed.trim() !== '' && !isWeight,
  }
}

/** A weight over 0, or nothing. */
export function WeightField(props: {
  readonly label: string
  readonly typed: string
  readonly onTyped: (typed: string) => void
}) {
  const { w, f } = useWords()
  const { isWrong } = typedWeight(props.typed, f)
  return (
    <TextField
      kind="number"
      label={props.label}
      unit={f.weightUnit}
      value={props.typed}
      error={isWrong ? w.record.weigh.weightWrong : undefined}
      onValue={props.onTyped}
    />
  )
}

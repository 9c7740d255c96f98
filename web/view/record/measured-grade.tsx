import { useState } from 'preact/hooks'
import {
  type MeasuredTest,
  NO_COLOURS,
  type TypedColours,
  measuredGrade,
} from '../../state/measured-grade.ts'
import { TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'

const AXES = ['L*', 'a*', 'b*'] as const

/** For those who own a meter: the grade from the colour before the test and after it. */
export function MeasuredGrade({
  test,
  onGrade,
}: {
  readonly test: MeasuredTest
  readonly onGrade: (grade: string) => void
}) {
  const { w } = useWords()
  const words = w.record.measured
  const [typed, setTyped] = useState<TypedColours>(NO_COLOURS)
  const grade = measuredGrade(test, typed)
  return (
    <details class="panel">
      <summary>{words.title}</summary>
      <div class="form">
        {(['before', 'after'] as const).map((when) => (
          <div key={when} class="field-grid">
            {AXES.map((axis, i) => (
              <TextField
                key={axis}
                label={`${words[when][test]}: ${axis}`}
                kind="number"
                value={typed[when][i] ?? ''}
                onValue={(value) => setTyped({ ...typed, [when]: typed[when].with(i, value) })}
              />
            ))}
          </div>
        ))}
        {grade !== null && (
          <p>
            {words.found(grade)} {w.record.homeTest}{' '}
            <button type="button" class="button" onClick={() => onGrade(grade)}>
              {words.use}
            </button>
          </p>
        )}
      </div>
    </details>
  )
}

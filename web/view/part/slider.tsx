import { useId } from 'preact/hooks'
import type { SliderRange } from '../../state/what-if-draft.ts'

/** A number to try out. The browser's own slider: arrow keys, Home and End move it; the value stands as text. */
export function Slider(props: {
  readonly label: string
  readonly value: number
  /** The value in words, with its unit. */
  readonly text: string
  readonly range: SliderRange
  readonly onValue: (value: number) => void
}) {
  const id = useId()
  return (
    <div class="slider">
      <label for={id}>{props.label}</label>
      <output for={id}>{props.text}</output>
      <input
        id={id}
        type="range"
        min={props.range.min}
        max={props.range.max}
        step={props.range.step}
        value={props.value}
        aria-valuetext={props.text}
        onInput={(e) => props.onValue(Number(e.currentTarget.value))}
      />
    </div>
  )
}

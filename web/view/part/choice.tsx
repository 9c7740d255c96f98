import { useId } from 'preact/hooks'

/** A few possibilities side by side, one of them chosen. */
export function Choice<T extends string>(props: {
  readonly label: string
  readonly value: T
  readonly options: readonly (readonly [value: T, text: string])[]
  readonly onValue: (value: T) => void
}) {
  const name = useId()
  return (
    <fieldset class="choice">
      <legend>{props.label}</legend>
      {props.options.map(([value, text]) => (
        <label key={value}>
          <input
            type="radio"
            name={name}
            value={value}
            checked={value === props.value}
            onChange={() => props.onValue(value)}
          />
          {text}
        </label>
      ))}
    </fieldset>
  )
}

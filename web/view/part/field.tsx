import type { ComponentChildren } from 'preact'
import { useId } from 'preact/hooks'
import { useWords } from '../page-context.ts'

interface FieldProps {
  readonly label: string
  readonly help?: string | undefined
  readonly error?: string | undefined
  readonly unit?: string | undefined
}

/** What a control needs so that label, help and error belong to it. */
export interface Tied {
  readonly id: string
  readonly 'aria-describedby'?: string
  readonly 'aria-invalid'?: true
}

/** A label, a control, and beside it what is wrong with it. */
export function Field(props: FieldProps & { readonly children: (tied: Tied) => ComponentChildren }) {
  const id = useId()
  const described = [
    props.error === undefined ? null : `${id}-error`,
    props.help === undefined ? null : `${id}-help`,
  ].filter((part) => part !== null)
  const tied: Tied = {
    id,
    ...(described.length === 0 ? {} : { 'aria-describedby': described.join(' ') }),
    ...(props.error === undefined ? {} : { 'aria-invalid': true as const }),
  }
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <div class="field-control">
        {props.children(tied)}
        {props.unit !== undefined && <span class="field-unit">{props.unit}</span>}
      </div>
      {props.error !== undefined && (
        <p class="field-error" id={`${id}-error`}>
          {props.error}
        </p>
      )}
      {props.help !== undefined && (
        <p class="field-help" id={`${id}-help`}>
          {props.help}
        </p>
      )}
    </div>
  )
}

/** One line of text or one number; numbers may be typed with a decimal comma. */
export function TextField(
  props: FieldProps & {
    readonly value: string
    readonly onValue: (value: string) => void
    readonly kind?: 'text' | 'number'
    readonly maxLength?: number
    readonly required?: boolean
  },
) {
  const { f } = useWords()
  return (
    <Field {...props}>
      {(tied) => (
        <input
          {...tied}
          type="text"
          inputMode={props.kind === 'number' ? 'decimal' : 'text'}
          autocomplete="off"
          maxLength={props.maxLength ?? 120}
          required={props.required ?? false}
          value={props.kind === 'number' ? f.typed(props.value) : props.value}
          onInput={(e) => props.onValue(e.currentTarget.value)}
        />
      )}
    </Field>
  )
}

/** Several lines of text. */
export function LongField(
  props: FieldProps & {
    readonly value: string
    readonly onValue: (value: string) => void
    /** At most so high, lines. */
    readonly rows?: number
  },
) {
  return (
    <Field {...props}>
      {(tied) => (
        <textarea
          {...tied}
          rows={Math.min(props.rows ?? 6, props.value.split('\n').length)}
          value={props.value}
          onInput={(e) => props.onValue(e.currentTarget.value)}
        />
      )}
    </Field>
  )
}

export function SelectField<T extends string>(
  props: FieldProps & {
    readonly value: T
    readonly options: readonly (readonly [value: T, text: string])[]
    readonly onValue: (value: T) => void
  },
) {
  return (
    <Field {...props}>
      {(tied) => (
        <select
          {...tied}
          value={props.value}
          onChange={(e) => {
            const found = props.options.find(([value]) => value === e.currentTarget.value)
            if (found !== undefined) props.onValue(found[0])
          }}
        >
          {props.options.map(([value, text]) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

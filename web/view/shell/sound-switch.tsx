import { usePage, useWords } from '../page-context.ts'

/** Says whether this page would sound, until it is on in a way that can't be missed. */
export function SoundSwitch() {
  const { w } = useWords()
  const { state, acts } = usePage()
  const on = state.soundOn.value
  return (
    <button
      type="button"
      class={`button sound-switch ${on ? 'quiet' : 'loud'}`}
      aria-pressed={on}
      onClick={() => void acts.switchSound(!on)}
    >
      <svg viewBox="0 0 24 24" aria-hidden="true" focusable="false">
        <path d="M4 9v6h4l5 5V4L8 9z" />
        <path d={on ? 'M17 8c2 2 2 6 0 8M19.500 5.500c4 4 4 9 0 13' : 'M17 9l6 6M23 9l-6 6'} />
      </svg>
      <span>{on ? w.shell.soundOn : w.shell.soundOff}</span>
    </button>
  )
}

import type { PotLive } from '#core/wire/live'
import { liftText } from '#core/words/lift-text'
import { useWords } from '../page-context.ts'

/** Whether a bath that cools can be lifted when the alarm clock rings; nothing where none is set or none cools. */
export function LiftLines({ pot, isWhole }: { readonly pot: PotLive; readonly isWhole: boolean }) {
  const { f } = useWords()
  if (pot.lift === null || pot.lift === undefined || pot.tempC === null) return null
  const lines = liftText(pot.lift, f.person)
  return (
    <div class={`lift lift-${pot.lift.verdict}`}>
      {(isWhole ? lines : lines.slice(0, 1)).map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  )
}

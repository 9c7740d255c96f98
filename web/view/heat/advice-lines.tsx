import type { PotLive } from '#core/wire/live'
import { adviceText } from '#core/words/advice-text'
import { useWords } from '../page-context.ts'

/** How to set the dial, as advice; nothing where there is nothing to say or nobody sees the bath. */
export function AdviceLines({ pot, isWhole }: { readonly pot: PotLive; readonly isWhole: boolean }) {
  const { w, f } = useWords()
  if (pot.advice === null || pot.advice === undefined || pot.tempC === null) return null
  const lines = adviceText(pot.advice, pot.lid ?? 'on', f.person)
  if (lines.length === 0) return null
  return (
    <section class="advice" aria-label={w.heat.advice}>
      {(isWhole ? lines : lines.slice(0, 1)).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {isWhole && <p class="advice-foot">{w.heat.never}</p>}
    </section>
  )
}

import type { MorningItem } from '#core/watch/morning-page'
import type { Names } from '#core/words/names'
import { morningText } from '#core/words/morning-text'
import type { PotLive } from '#core/wire/live'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'

interface MorningAnswer {
  readonly fromMs: number
  readonly toMs: number
  readonly isQuiet: boolean
  readonly items: readonly MorningItem[]
}

/** What the night left to know and to do, in this person's unit. */
export function MorningPage() {
  const { w, f } = useWords()
  const { state } = usePage()
  const found = useAnswer<MorningAnswer>('/api/morning')
  const names = namesOf(state.stove.value.pots ?? [])
  return (
    <section class="narrow">
      <h1>{w.tell.morning}</h1>
      <Show of={found}>
        {({ fromMs, toMs, isQuiet, items }) => (
          <>
            <p>{w.tell.morningSpan(f.clock(fromMs), f.clock(toMs))}</p>
            {isQuiet && <p>{w.tell.morningQuiet}</p>}
            <ul class="morning">
              {items.map((item, no) => (
                <li key={no}>{morningText(item, names, f.person)}</li>
              ))}
            </ul>
          </>
        )}
      </Show>
      <a class="button" href="#/">
        {w.shell.backToStove}
      </a>
    </section>
  )
}

function namesOf(pots: readonly PotLive[]): Names {
  const stages = pots.flatMap((pot) => pot.stages.map((stage) => [stage.id, stage.title] as const))
  return {
    pots: Object.fromEntries(pots.map((pot) => [pot.potId, pot.title])),
    stages: Object.fromEntries(stages),
  }
}

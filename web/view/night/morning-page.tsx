import type { MorningItem } from '#core/watch/morning-page'
import { morningText } from '#core/words/morning-text'
import { Mark, type MarkName } from '../part/mark.tsx'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { namesOf } from '../words/told-text.ts'

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
            {isQuiet && (
              <p class="night-verdict morning-verdict calm">
                <Mark name="done" />
                {w.tell.morningQuiet}
              </p>
            )}
            <ul class="row-list">
              {items.map((item, no) => (
                <li key={no}>
                  <Mark name={markOf(item)} />
                  <span class="row-main">{morningText(item, names, f.person)}</span>
                  {item.kind === 'probe-check-due' && (
                    <a class="button" href="#/probes">
                      {w.probe.title}
                    </a>
                  )}
                  {'batchId' in item && item.batchId !== null && (
                    <a class="button" href={`#/batches/${item.batchId}`}>
                      {w.tell.morningBatch}
                    </a>
                  )}
                </li>
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

const markOf = (item: MorningItem): MarkName =>
  item.kind === 'cooled' && item.reachedMs === null ? 'cooling' : MARKS[item.kind]

const MARKS: Readonly<Record<MorningItem['kind'], MarkName>> = {
  alarm: 'soon',
  'hold-short': 'below',
  'cooled-unlike-plan': 'cooling',
  cooled: 'cool-enough',
  gap: 'stale',
  notice: 'log',
  'probe-check-due': 'log',
}

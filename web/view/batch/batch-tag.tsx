import type { BatchSummary } from '#core/wire/records'
import { Mark } from '../part/mark.tsx'
import { useWords } from '../page-context.ts'

export function BatchTag({ state }: { readonly state: BatchSummary['state'] }) {
  const { w } = useWords()
  const mark = state === 'running' ? 'in-window' : state === 'ended' ? 'done' : 'no-window'
  return (
    <span class={`tag tag-${state}`}>
      <Mark name={mark} />
      {w.batch.states[state]}
    </span>
  )
}

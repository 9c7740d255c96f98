import type { ComponentChildren } from 'preact'
import { useWords } from '../page-context.ts'
import type { Fetched } from './use-answer.ts'

/** Shows what was fetched, or that it is on its way, or why it didn't come. */
export function Show<T>(props: {
  readonly of: Fetched<T>
  readonly children: (value: T) => ComponentChildren
}) {
  const { w } = useWords()
  const { asked, again } = props.of
  if (asked === null) return <p class="hint">{w.shell.loading}</p>
  if (asked.ok) return <>{props.children(asked.value)}</>
  return (
    <div class="problem" role="status">
      <p>{w.shell.failed(asked.why)}</p>
      <button type="button" class="button" onClick={again}>
        {w.shell.tryAgain}
      </button>
    </div>
  )
}

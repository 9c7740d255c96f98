import type { ProbeEntry } from '../../state/probe-draft.ts'
import { useWords } from '../page-context.ts'
import { useAnswer } from '../part/use-answer.ts'

interface Change {
  readonly atMs: number
  readonly setting: ProbeEntry | null
}

/** What was set of a probe on the page, by date. */
export function ProbeChanges({ name }: { readonly name: string }) {
  const { w, f } = useWords()
  const { asked } = useAnswer<readonly Change[]>(`/api/probe-settings/${encodeURIComponent(name)}/changes`)
  if (asked === null || !asked.ok || asked.value.length === 0) return null
  const text = ({ atMs, setting }: Change, before: ProbeEntry | null) => {
    const day = f.day(atMs)
    if (setting === null) return w.probe.changeRemoved(day)
    return before === null
      ? w.probe.changeAdded(day)
      : w.probe.changeMade(day, differing(before, setting).join(', '))
  }
  return (
    <section class="form-part">
      <h3>{w.probe.changes}</h3>
      <ul>
        {asked.value.map((change, i) => (
          <li key={change.atMs}>{text(change, asked.value[i - 1]?.setting ?? null)}</li>
        ))}
      </ul>
    </section>
  )
}

/** The fields that are not the same, by their names in the settings. */
const differing = (a: ProbeEntry, b: ProbeEntry): readonly string[] =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].filter(
    (key) => JSON.stringify(a[key]) !== JSON.stringify(b[key]),
  )

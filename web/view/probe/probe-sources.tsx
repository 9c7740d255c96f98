import { useState } from 'preact/hooks'
import type { ProbeEntry } from '../../state/probe-draft.ts'
import { usePage, useWords } from '../page-context.ts'
import { Dialog } from '../part/dialog.tsx'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { ProbeChanges } from './probe-changes.tsx'
import { ProbeForm } from './probe-form.tsx'

/** An entry as the server shows it, with where it is set. */
interface Source {
  readonly name: string
  readonly kind: string
  readonly title?: string
  readonly setIn: 'file' | 'page'
  readonly hasPassword?: boolean
}

/** Every entry of the settings, of the file and of the page; those of the page can be changed and taken away. */
export function ProbeSources(props: { readonly onChange: () => void }) {
  const { w } = useWords()
  const sources = useAnswer<readonly Source[]>('/api/probe-settings')
  const [open, setOpen] = useState<string | null>(null)
  const done = () => {
    setOpen(null)
    props.onChange()
  }
  return (
    <section class="form-part">
      <h3>{w.probe.sources}</h3>
      <Show of={sources}>
        {(all) => (
          <>
            {all.length === 0 && <p class="hint">{w.probe.noSources}</p>}
            <ul class="row-list">
              {all.map((source) => (
                <li key={source.name}>
                  <div class="row-main">
                    <strong>{source.title ?? source.name}</strong>
                    <p class="row-more">{kindText(source.kind, w.probe.probeKinds)}</p>
                  </div>
                  {source.setIn === 'file' && <span class="tag">{w.probe.inFile}</span>}
                  <button
                    type="button"
                    class="button"
                    aria-label={w.probe.changeSource(source.name)}
                    onClick={() => setOpen(source.name)}
                  >
                    {source.setIn === 'file' ? w.probe.showSource : w.plan.edit}
                  </button>
                  {open === source.name && (
                    <Dialog title={w.probe.changeSource(source.name)} onClose={() => setOpen(null)}>
                      <ChangeSource source={source} onDone={done} onCancel={() => setOpen(null)} />
                    </Dialog>
                  )}
                </li>
              ))}
            </ul>
          </>
        )}
      </Show>
    </section>
  )
}

const kindText = (kind: string, words: Readonly<Record<string, string>>): string => words[kind] ?? kind

function ChangeSource(props: {
  readonly source: Source
  readonly onDone: () => void
  readonly onCancel: () => void
}) {
  const { w } = useWords()
  const { setIn, hasPassword = false, ...entry } = props.source
  if (setIn === 'file')
    return (
      <>
        <p>{w.probe.inFileHelp}</p>
        <pre class="entry-text">{JSON.stringify(entry, null, 2)}</pre>
      </>
    )
  const start = { name: entry.name, entry: { ...entry } satisfies ProbeEntry, hasPassword }
  return (
    <>
      <ProbeForm start={start} onDone={(saved) => (saved ? props.onDone() : props.onCancel())} />
      <TakeAway name={entry.name} onDone={props.onDone} />
      <ProbeChanges name={entry.name} />
    </>
  )
}

/** Asked twice: the first tap may have been a wet sleeve. */
function TakeAway(props: { readonly name: string; readonly onDone: () => void }) {
  const { w } = useWords()
  const { requests } = usePage()
  const [asked, setAsked] = useState(false)
  const [refusal, setRefusal] = useState<string | null>(null)
  async function takeAway(): Promise<void> {
    const done = await requests.ask('DELETE', `/api/probe-settings/${encodeURIComponent(props.name)}`)
    if (done.ok) props.onDone()
    else setRefusal(done.why)
  }
  return (
    <section class="form-part">
      {asked && <p>{w.probe.takeAwayHelp}</p>}
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <div class="buttons">
        <button type="button" class="button quiet" onClick={() => setAsked(!asked)}>
          {asked ? w.shell.cancel : w.probe.takeAway}
        </button>
        {asked && (
          <button type="button" class="button" onClick={() => void takeAway()}>
            {w.probe.takeAwaySure}
          </button>
        )}
      </div>
    </section>
  )
}

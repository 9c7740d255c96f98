import { useState } from 'preact/hooks'
import { TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { reportHref } from './report-href.ts'

export interface MadeBatch {
  readonly batchId: number
  readonly title: string
  readonly potId: string
  readonly byHand: boolean
}

/** A class's batches: begun pot by pot or all at once, and a page to print for each. */
export function ClassMade(props: { readonly made: readonly MadeBatch[]; readonly firstStageId: string }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const words = w.record.class
  const [begun, setBegun] = useState<readonly number[]>([])
  const [pupils, setPupils] = useState('')
  const waiting = props.made.filter((batch) => !begun.includes(batch.batchId))

  async function begin(batches: readonly MadeBatch[]): Promise<void> {
    const { who } = state.settings.peek()
    for (const { batchId, potId } of batches) {
      const path = `/api/batches/${batchId}/stages/${encodeURIComponent(props.firstStageId)}/start`
      const started = await requests.ask('POST', path, { potId, ...(who === '' ? {} : { who }) })
      if (!started.ok) return void (state.refusal.value = started.why)
      setBegun((known) => [...known, batchId])
    }
  }
  return (
    <div class="form">
      <p role="status">{words.made}</p>
      <TextField
        label={words.pupils}
        help={words.pupilsHelp}
        value={pupils}
        maxLength={300}
        onValue={setPupils}
      />
      <ul class="row-list">
        {props.made.map((batch) => (
          <li key={batch.batchId}>
            <div class="row-main">
              <a href={`#/batches/${batch.batchId}`}>{batch.title}</a>
              {batch.byHand && <p class="row-more">{words.byHand}</p>}
            </div>
            <div class="buttons">
              <a
                class="button quiet"
                href={reportHref(batch.batchId, 'class-page', state, { pupils })}
                target="_blank"
                rel="noreferrer"
              >
                {words.page(batch.potId)}
              </a>
              {begun.includes(batch.batchId) ? (
                <span class="tag tag-running">{words.begun}</span>
              ) : (
                <button type="button" class="button" onClick={() => void begin([batch])}>
                  {words.begin(batch.potId)}
                </button>
              )}
            </div>
          </li>
        ))}
      </ul>
      <div class="buttons">
        {waiting.length > 0 && (
          <button type="button" class="button big" onClick={() => void begin(waiting)}>
            {words.beginAll}
          </button>
        )}
        <a class="button" href="#/">
          {words.toStove}
        </a>
      </div>
    </div>
  )
}

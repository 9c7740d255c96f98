import { useState } from 'preact/hooks'
import type { BatchSummary } from '#core/wire/records'
import { FACET_KINDS, type FacetCount } from '../../state/facets.ts'
import { EMPTY_FIND, type FindDraft, PAGE, findOfFacet, findPath } from '../../state/find-query.ts'
import { Show } from '../part/fetched.tsx'
import { Field, SelectField, TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { archiveHref } from './report-href.ts'
import { FoundBatches } from './found-batches.tsx'

/** All batches, newest first; and by words, days and what they ran on. */
export function FindPage({ facet }: { readonly facet: string | null }) {
  const { w } = useWords()
  const [draft, setDraft] = useState<FindDraft>(facet === null ? EMPTY_FIND : findOfFacet(facet))
  return (
    <div class="wide">
      <div class="page-head">
        <h1>{w.batch.listTitle}</h1>
        <div class="buttons">
          <a class="button" href="#/morning">
            {w.tell.morning}
          </a>
          <a class="button main" href="#/start">
            {w.batch.start}
          </a>
          <a class="button" href="#/class">
            {w.record.class.open}
          </a>
          <a class="button" href="#/shades">
            {w.record.shades.open}
          </a>
          <a class="button" href="#/stock">
            {w.record.stock.open}
          </a>
        </div>
      </div>
      <FindForm draft={draft} openAtFirst={facet !== null} onDraft={setDraft} />
      <Found key={findPath(draft, null)} draft={draft} />
      <TakeAway />
    </div>
  )
}

/** Everything, to keep without this program. */
function TakeAway() {
  const { w } = useWords()
  const { state } = usePage()
  return (
    <section class="panel" aria-label={w.record.find.takeAway}>
      <h2>{w.record.find.takeAway}</h2>
      <div class="buttons">
        <a class="button" href={archiveHref(state)} download="studio.zip">
          {w.record.find.archive}
        </a>
        <a class="button" href="/api/batches.csv" download="batches.csv">
          {w.record.find.csv}
        </a>
      </div>
      <p class="row-more">{w.record.find.archiveHelp}</p>
    </section>
  )
}

function FindForm(props: {
  readonly draft: FindDraft
  readonly openAtFirst: boolean
  readonly onDraft: (draft: FindDraft) => void
}) {
  const { w } = useWords()
  const { draft, onDraft } = props
  const { find } = w.record
  const { asked } = useAnswer<readonly FacetCount[]>('/api/facets')
  const counts = asked?.ok === true ? asked.value : []
  return (
    <form class="panel form" role="search" onSubmit={(e) => e.preventDefault()}>
      <TextField label={find.text} value={draft.text} onValue={(text) => onDraft({ ...draft, text })} />
      <details open={props.openAtFirst}>
        <summary>{find.narrow}</summary>
        <div class="field-grid">
          {FACET_KINDS.map((kind) => {
            const own = counts.filter((count) => count.kind === kind)
            const chosen = draft.facets[kind] ?? ''
            const rare = chosen !== '' && !own.some((count) => count.value === chosen)
            return own.length === 0 && !rare ? null : (
              <SelectField
                key={kind}
                label={find.facets[kind]}
                value={chosen}
                options={[
                  ['', find.any],
                  ...(rare ? [[chosen, chosen] as const] : []),
                  ...own.map(({ value, count }) => [value, find.count(value, count)] as const),
                ]}
                onValue={(value) => onDraft({ ...draft, facets: { ...draft.facets, [kind]: value } })}
              />
            )
          })}
          <DayField
            label={find.fromDay}
            value={draft.fromDay}
            onValue={(fromDay) => onDraft({ ...draft, fromDay })}
          />
          <DayField
            label={find.toDay}
            value={draft.toDay}
            onValue={(toDay) => onDraft({ ...draft, toDay })}
          />
        </div>
        <button type="button" class="button" onClick={() => onDraft(EMPTY_FIND)}>
          {find.clear}
        </button>
      </details>
    </form>
  )
}

function DayField(props: {
  readonly label: string
  readonly value: string
  readonly onValue: (day: string) => void
}) {
  return (
    <Field label={props.label}>
      {(tied) => (
        <input
          {...tied}
          type="date"
          value={props.value}
          onInput={(e) => props.onValue(e.currentTarget.value)}
        />
      )}
    </Field>
  )
}

function Found({ draft }: { readonly draft: FindDraft }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const first = useAnswer<readonly BatchSummary[]>(findPath(draft, null))
  const [older, setOlder] = useState<readonly BatchSummary[]>([])
  const [lastPage, setLastPage] = useState(PAGE)
  return (
    <Show of={first}>
      {(newest) => {
        const all = [...newest, ...older]
        const more = newest.length === PAGE && lastPage === PAGE
        const fetchOlder = async (): Promise<void> => {
          const path = findPath(draft, all.at(-1)?.id ?? null)
          const next = await requests.ask<readonly BatchSummary[]>('GET', path)
          if (!next.ok) return void (state.refusal.value = next.why)
          setOlder([...older, ...next.value])
          setLastPage(next.value.length)
        }
        return (
          <>
            <FoundBatches batches={all} isAll={draft === EMPTY_FIND} more={more} />
            {more && (
              <button type="button" class="button" onClick={() => void fetchOlder()}>
                {w.record.find.older}
              </button>
            )}
          </>
        )
      }}
    </Show>
  )
}

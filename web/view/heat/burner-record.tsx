import type { ForecastRecord } from '#core/wire/burner'
import { errorOf, isInside, isTemp, recordSummaries } from '../../state/forecast-record.ts'
import { Mark } from '../part/mark.tsx'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'
import type { Format } from '../words/format.ts'

/** What was said and what came. */
export function BurnerRecord({ record }: { readonly record: readonly ForecastRecord[] }) {
  const { w, f } = useWords()
  const summaries = recordSummaries(record)
  return (
    <section class="panel">
      <h2>{w.heat.record}</h2>
      <p class="row-more">{record.length === 0 ? w.heat.noRecord : w.heat.recordHelp}</p>
      {summaries.length > 0 && (
        <dl class="facts">
          {summaries.map(({ kind, source, count, off, inside }) => [
            <dt key={`${source} ${kind}`}>
              {w.heat.recordKind[kind]} <SourceTag source={source} />
            </dt>,
            <dd key={`${source} ${kind} text`}>{w.heat.recordLine(count, offText(kind, off, f), inside)}</dd>,
          ])}
        </dl>
      )}
      {record.length > 0 && <RecordTable record={record} />}
    </section>
  )
}

function SourceTag({ source }: { readonly source: ForecastRecord['source'] }) {
  const { w } = useWords()
  return source === 'replayed' ? <small class="tag-guess">{w.heat.replayedMark}</small> : null
}

function RecordTable({ record }: { readonly record: readonly ForecastRecord[] }) {
  const { w, f } = useWords()
  const columns = w.heat.recordColumns
  const value = (kind: ForecastRecord['kind'], said: number) => (isTemp(kind) ? f.temp(said) : f.clock(said))
  return (
    <ScrollTable label={w.heat.record}>
      <thead>
        <tr>
          <th scope="col">{columns.when}</th>
          <th scope="col">{columns.what}</th>
          <th scope="col">{columns.told}</th>
          <th scope="col">{columns.came}</th>
          <th scope="col">{columns.off}</th>
        </tr>
      </thead>
      <tbody>
        {record.map((r) => (
          <tr key={`${r.madeMs} ${r.kind}`}>
            <td>
              {r.batchId === null ? (
                f.day(r.madeMs)
              ) : (
                <a href={`#/batches/${r.batchId}`}>{f.day(r.madeMs)}</a>
              )}
            </td>
            <td>
              {w.heat.recordKind[r.kind]} {r.isGuess && <small class="tag-guess">{w.heat.guessMark}</small>}{' '}
              <SourceTag source={r.source} />
            </td>
            <td>{w.heat.range(value(r.kind, r.told), bound(r, r.low90, f), bound(r, r.high90, f))}</td>
            <td>{value(r.kind, r.came)}</td>
            <td>
              <span class={isInside(r) ? 'was-inside' : 'was-outside'}>
                <Mark name={isInside(r) ? 'done' : 'stale'} />
                {offText(r.kind, errorOf(r), f)}
                <span class="visually-hidden">{isInside(r) ? w.heat.inside : w.heat.outside}</span>
              </span>
            </td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  )
}

const bound = ({ kind }: ForecastRecord, value: number, f: Format): string =>
  isTemp(kind) ? f.number(value) : f.clock(value)

const offText = (kind: ForecastRecord['kind'], off: number, f: Format): string =>
  isTemp(kind) ? f.drop(off) : f.span(off * 60_000)

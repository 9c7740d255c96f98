import type { BurnerTrace } from '#core/wire/burner'
import { useWords } from '../page-context.ts'

/** The traces that the pot was learned from, each with the way to its batch. */
export function BurnerTraces({ traces }: { readonly traces: readonly BurnerTrace[] }) {
  const { w, f } = useWords()
  if (traces.length === 0) return <p>{w.heat.noTraces}</p>
  return (
    <ul class="row-list">
      {traces.map((trace) => (
        <li key={trace.fromMs}>
          <div class="row-main">
            {trace.batchId === null ? (
              <strong>{w.heat.evening}</strong>
            ) : (
              <a href={`#/batches/${trace.batchId}`}>{trace.title ?? w.heat.batchNo(trace.batchId)}</a>
            )}
            <p class="row-more">
              {[
                f.day(trace.fromMs),
                f.span(trace.toMs - trace.fromMs),
                w.heat.litresOf(f.amount(trace.litres)),
                trace.misfitC === null ? null : w.heat.traceMisses(f.drop(trace.misfitC)),
                w.heat.traceWhy[trace.why],
                trace.lid === null ? null : w.heat.traceLid[trace.lid],
              ]
                .filter((part) => part !== null && part !== '')
                .join(' · ')}
            </p>
          </div>
        </li>
      ))}
    </ul>
  )
}

import { useWords } from '../page-context.ts'

export interface Span {
  readonly fromMs: number
  readonly toMs: number
}

/** Closest look, ms. */
const CLOSEST_MS = 2 * 60_000

/** A stretch inside `whole`, as near to the wanted one as it can be; `null` when it is the whole. */
export function spanWithin(wanted: Span, whole: Span): Span | null {
  const length = Math.max(CLOSEST_MS, wanted.toMs - wanted.fromMs)
  if (length >= whole.toMs - whole.fromMs) return null
  const middle = (wanted.fromMs + wanted.toMs) / 2
  const fromMs = Math.min(Math.max(whole.fromMs, middle - length / 2), whole.toMs - length)
  return { fromMs: Math.round(fromMs), toMs: Math.round(fromMs + length) }
}

/** Everything that dragging and pinching can do on a trace, for keys and single taps. */
export function ZoomButtons(props: {
  readonly span: Span
  readonly whole: Span
  readonly onSpan: (span: Span | null) => void
}) {
  const { w } = useWords()
  const { span, whole } = props
  const length = span.toMs - span.fromMs
  const go = (share01: number, factor: number) => {
    const middle = (span.fromMs + span.toMs) / 2 + share01 * length
    const half = (length * factor) / 2
    props.onSpan(spanWithin({ fromMs: middle - half, toMs: middle + half }, whole))
  }
  const isWhole = length >= whole.toMs - whole.fromMs
  return (
    <div class="chart-buttons" role="group" aria-label={w.batch.zoom.label}>
      <button type="button" class="button quiet" onClick={() => go(0, 0.5)} disabled={length <= CLOSEST_MS}>
        {w.batch.zoom.nearer}
      </button>
      <button type="button" class="button quiet" onClick={() => go(0, 2)} disabled={isWhole}>
        {w.batch.zoom.farther}
      </button>
      <button type="button" class="button quiet" onClick={() => go(-0.5, 1)} disabled={isWhole}>
        {w.batch.zoom.earlier}
      </button>
      <button type="button" class="button quiet" onClick={() => go(0.5, 1)} disabled={isWhole}>
        {w.batch.zoom.later}
      </button>
      <button type="button" class="button quiet" onClick={() => props.onSpan(null)} disabled={isWhole}>
        {w.batch.zoom.whole}
      </button>
    </div>
  )
}

import { useMemo, useState } from 'preact/hooks'
import type { Stretch } from '#core/batch/in-air'
import type { Stage } from '#core/plan/plan'
import type { EventRecord } from '#core/wire/records'
import { ceilingOf, windowOf } from '../../state/bath-standing.ts'
import type { TraceAnswer } from '../../state/requests.ts'
import { TRACE_POINTS, traceGaps } from '../../state/trace-gaps.ts'
import { thinPoints } from '#core/measure/thin-points'
import { tracePath } from '../../state/trace-store.ts'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { TraceChart } from '../trace/trace-chart.tsx'
import { TraceTable } from '../trace/trace-table.tsx'
import { eventName } from '../words/event-name.ts'
import { type Span, ZoomButtons } from '../trace/zoom-buttons.tsx'

interface Props {
  readonly stage: Stage
  readonly probe: string
  readonly fromMs: number
  readonly toMs: number
  readonly events: readonly EventRecord[]
  readonly inAir: readonly Stretch[]
}

/** The trace of one run of a stage; a closer look is fetched in full detail, so that nothing is thinned away. */
export function StageTrace(props: Props) {
  const { w, f } = useWords()
  const whole: Span = { fromMs: props.fromMs, toMs: Math.max(props.toMs, props.fromMs + 60_000) }
  const [near, setNear] = useState<Span | null>(null)
  const span = near ?? whole
  const found = useAnswer<TraceAnswer>(tracePath(props.probe, span.fromMs, span.toMs + 1, TRACE_POINTS))
  const marks = useMemo(
    () => props.events.map((e) => ({ atMs: e.atMs, text: eventName(e.event, { w, f }) })),
    [props.events, w],
  )
  return (
    <Show of={found}>
      {({ points }) => (
        <Drawn {...props} points={points} span={span} whole={whole} marks={marks} onSpan={setNear} />
      )}
    </Show>
  )
}

function Drawn(
  props: Props & {
    readonly points: TraceAnswer['points']
    readonly span: Span
    readonly whole: Span
    readonly marks: readonly { readonly atMs: number; readonly text: string }[]
    readonly onSpan: (span: Span | null) => void
  },
) {
  const { w, f } = useWords()
  const { stage, points, span, onSpan } = props
  const drawn = useMemo(() => thinPoints(points, MOST_DRAWN), [points])
  return (
    <>
      <div class="big-trace">
        <TraceChart
          label={w.batch.traceOf(stage.title)}
          points={drawn}
          fromMs={span.fromMs}
          toMs={span.toMs}
          windowC={windowOf(stage)}
          ceilingC={ceilingOf(stage)}
          goalC={stage.kind === 'cool' ? stage.coolToC : null}
          events={props.marks}
          inAir={props.inAir}
          onSpan={onSpan}
        />
      </div>
      {props.inAir.length > 0 && <p class="row-more">{w.batch.inAir}</p>}
      <ZoomButtons span={span} whole={props.whole} onSpan={onSpan} />
      <h4>{w.batch.gaps}</h4>
      <Gaps gaps={traceGaps(points, span.fromMs, span.toMs)} f={f} />
      <TraceTable points={points} />
    </>
  )
}

/** Two points a pixel of the widest chart. */
const MOST_DRAWN = 2_400

function Gaps(props: {
  readonly gaps: ReturnType<typeof traceGaps>
  readonly f: ReturnType<typeof useWords>['f']
}) {
  const { w } = useWords()
  const { gaps, f } = props
  if (gaps.length === 0) return <p class="row-more">{w.batch.noGaps}</p>
  return (
    <ul class="log">
      {gaps.map(({ fromMs, toMs }) => (
        <li key={fromMs}>{w.batch.gap(f.clock(fromMs), f.clock(toMs), f.span(toMs - fromMs))}</li>
      ))}
    </ul>
  )
}

import { shownDegrees } from '../chart/shown-degrees.ts'
import { useLineChart } from '../chart/use-line-chart.ts'
import { useWords } from '../page-context.ts'
import type { Format } from '../words/format.ts'
import { traceData } from './trace-data.ts'
import { traceOptions } from './trace-options.ts'
import type { TracePicture } from './trace-picture.ts'
import type { Span } from './zoom-buttons.tsx'

interface Props extends TracePicture {
  readonly label: string
  /** A stretch was chosen by dragging or pinching; without it the chart only shows. */
  readonly onSpan?: (span: Span) => void
}

/** Draws a trace. It is told in words too, for those who can't see a canvas. */
export function TraceChart(props: Props) {
  const { f } = useWords()
  const { points, forecast, fromMs, toMs, windowC, ceilingC, goalC, events } = props
  const canvas = useLineChart(
    (colours, widthPx) => ({
      data: traceData(props, colours, shownDegrees(f)),
      options: traceOptions(props, colours, f, widthPx, props.onSpan),
    }),
    [points, forecast, fromMs, toMs, windowC, ceilingC, goalC, events],
  )
  return (
    <div class="trace">
      <canvas ref={canvas} role="img" aria-label={`${props.label}. ${summary(props, f)}`} />
    </div>
  )
}

/** From where to where, lowest and highest: what the eye takes from the line. */
function summary({ points }: TracePicture, f: Format): string {
  const first = points[0]
  const last = points.at(-1)
  if (first === undefined || last === undefined) return '–'
  const temps = points.map(([, tempC]) => tempC)
  const low = temps.reduce((a, b) => Math.min(a, b))
  const high = temps.reduce((a, b) => Math.max(a, b))
  return `${f.clock(first[0])} ${f.temp(first[1])} → ${f.clock(last[0])} ${f.temp(last[1])}; ${f.temp(low)} … ${f.temp(high)}`
}

import { useEffect, useRef } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'
import type { Format } from '../words/format.ts'
import { chartColours } from './chart-colours.ts'
import { Chart } from './chart-parts.ts'
import type { Span } from './zoom-buttons.tsx'
import { type TracePicture, traceData, traceOptions } from './trace-picture.ts'
import { useDark } from './use-dark.ts'

interface Props extends TracePicture {
  readonly label: string
  /** A stretch was chosen by dragging or pinching; without it the chart only shows. */
  readonly onSpan?: (span: Span) => void
}

/**
 * Draws a trace. One chart for the life of the component; a change sets new data and redraws without
 * animation. The picture is told in words too, for those who can't see a canvas.
 */
export function TraceChart(props: Props) {
  const { f } = useWords()
  const dark = useDark(usePage().state.settings.value.theme)
  const canvas = useRef<HTMLCanvasElement>(null)
  const chart = useRef<Chart<'line', { x: number; y: number }[]> | null>(null)
  useEffect(() => {
    const made = new Chart<'line', { x: number; y: number }[]>(canvas.current!, {
      type: 'line',
      data: { datasets: [] },
    })
    chart.current = made
    return () => made.destroy()
  }, [])
  useEffect(() => {
    const { current } = chart
    if (current === null || canvas.current === null) return
    const colours = chartColours(canvas.current)
    current.data = traceData(props, colours, f.unit === '°F')
    current.options = traceOptions(props, colours, f, current.width, props.onSpan)
    current.update('none')
  }, [
    props.points,
    props.forecast,
    props.fromMs,
    props.toMs,
    props.windowC,
    props.ceilingC,
    props.goalC,
    props.events,
    f.unit,
    dark,
  ])
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

import type { ChartOptions } from 'chart.js'
import type { ZoomPluginOptions } from 'chartjs-plugin-zoom/types/options'
import { isLine } from '../chart/banded-line.ts'
import type { ChartColours } from '../chart/chart-colours.ts'
import { levelMarks } from '../chart/levels.ts'
import { PLAIN_OPTIONS, tempAxis } from '../chart/plain-options.ts'
import { shownDegrees } from '../chart/shown-degrees.ts'
import type { Format } from '../words/format.ts'
import { eventMarks } from './event-marks.ts'
import { timeTicks } from './time-ticks.ts'
import type { TracePicture } from './trace-picture.ts'
import { traceRange } from './trace-range.ts'
import type { Span } from './zoom-buttons.tsx'

const TICK_PX = 90

/** Axes, marks and what a finger does. `onSpan`: a stretch was chosen; without it the chart only shows. */
export function traceOptions(
  picture: TracePicture,
  colours: ChartColours,
  f: Format,
  widthPx: number,
  onSpan?: (span: Span) => void,
): ChartOptions<'line'> {
  const shown = shownDegrees(f)
  return {
    ...PLAIN_OPTIONS,
    events: ['mousemove', 'mouseout', 'click', 'touchstart', 'touchmove'],
    scales: {
      x: timeAxis(picture, colours, f, widthPx),
      y: tempAxis(traceRange(picture), colours, shown),
    },
    plugins: {
      legend: { display: false },
      tooltip: {
        displayColors: false,
        filter: isLine,
        callbacks: {
          title: (items) => items.map((item) => f.clock(item.parsed.x ?? 0)).slice(0, 1),
          label: (item) => `${f.amount(item.parsed.y ?? 0)} ${f.unit}`,
        },
      },
      annotation: {
        annotations: { ...levelMarks(picture, colours, shown), ...eventMarks(picture, colours) },
      },
      ...(onSpan === undefined ? {} : { zoom: zoomOptions(onSpan) }),
    },
  }
}

function timeAxis(
  { fromMs, toMs }: TracePicture,
  colours: ChartColours,
  f: Format,
  widthPx: number,
): NonNullable<ChartOptions<'line'>['scales']>['x'] {
  const zoneMs = -new Date(fromMs).getTimezoneOffset() * 60_000
  return {
    type: 'linear',
    min: fromMs,
    max: toMs,
    grid: { color: colours.grid },
    border: { display: false },
    ticks: {
      color: colours.text,
      maxRotation: 0,
      autoSkip: false,
      callback: (value) => f.clock(Number(value)),
    },
    afterBuildTicks: (axis) => {
      const times = timeTicks(axis.min, axis.max, Math.max(2, widthPx / TICK_PX), zoneMs)
      axis.ticks = times.map((value) => ({ value }))
    },
  }
}

/** Drag over a stretch, pinch, or turn the wheel with Ctrl held: a plain wheel scrolls the page. */
const zoomOptions = (onSpan: (span: Span) => void): ZoomPluginOptions => ({
  zoom: {
    mode: 'x',
    drag: { enabled: true, threshold: 8 },
    pinch: { enabled: true },
    wheel: { enabled: true, modifierKey: 'ctrl' },
    onZoomComplete: ({ chart }) => {
      const x = chart.scales['x']
      if (x !== undefined) onSpan({ fromMs: Math.round(x.min), toMs: Math.round(x.max) })
    },
  },
})

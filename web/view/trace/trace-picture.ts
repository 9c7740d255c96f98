import type { ChartConfiguration, ChartOptions } from 'chart.js'
import type { AnnotationOptions } from 'chartjs-plugin-annotation'
import type { ZoomPluginOptions } from 'chartjs-plugin-zoom/types/options'
import { fahrenheit } from '#core/measure/units'
import type { TracePoint } from '../../state/trace-points.ts'
import type { Format } from '../words/format.ts'
import type { ChartColours } from './chart-colours.ts'
import type { Span } from './zoom-buttons.tsx'
import { timeTicks } from './time-ticks.ts'

/** With its 90 % band. */
export type ForecastPoint = readonly [atMs: number, tempC: number, low90C: number, high90C: number]

/** What a trace is drawn from. Temperatures °C, times Unix ms. */
export interface TracePicture {
  readonly points: readonly TracePoint[]
  readonly fromMs: number
  readonly toMs: number
  readonly windowC: readonly [number, number] | null
  readonly ceilingC: number | null
  /** Where a cool-down is to end. */
  readonly goalC: number | null
  /** How it goes on if nothing is touched, from now on. */
  readonly forecast?: readonly ForecastPoint[]
  readonly events?: readonly { readonly atMs: number; readonly text: string }[]
}

/** A longer stretch without a reading is left open: nothing is drawn that was not read, ms. */
export const GAP_MS = 60_000

type Options = ChartOptions<'line'>

/** The chart's data and options, made anew from the picture; animation is off, points are not parsed again. */
export function traceData(picture: TracePicture, colours: ChartColours, isF: boolean) {
  const shown = isF ? fahrenheit : (tempC: number) => tempC
  return {
    datasets: [
      {
        data: picture.points.map(([x, y]) => ({ x, y: shown(y) })),
        borderColor: colours.line,
        borderWidth: 2,
        pointRadius: picture.points.length < 2 ? 3 : 0,
        pointHitRadius: 8,
        spanGaps: Math.max(GAP_MS, 4 * typicalStepMs(picture.points)),
      },
      ...forecastData(picture.forecast ?? [], colours, shown),
    ],
  } satisfies ChartConfiguration<'line', { x: number; y: number }[]>['data']
}

/** Dashed, with what it may be off by as a band. */
function forecastData(
  forecast: readonly ForecastPoint[],
  colours: ChartColours,
  shown: (tempC: number) => number,
) {
  if (forecast.length === 0) return []
  const edge = { borderColor: 'transparent', borderWidth: 0, pointRadius: 0, pointHitRadius: 0 }
  return [
    { ...edge, data: forecast.map(([x, , , high]) => ({ x, y: shown(high) })) },
    {
      ...edge,
      data: forecast.map(([x, , low]) => ({ x, y: shown(low) })),
      fill: '-1',
      backgroundColor: colours.band,
    },
    {
      data: forecast.map(([x, tempC]) => ({ x, y: shown(tempC) })),
      borderColor: colours.line,
      borderDash: [5, 5],
      borderWidth: 2,
      pointRadius: 0,
      pointHitRadius: 4,
    },
  ]
}

/** Thinned traces have longer steps than the probe's own; the median tells. */
function typicalStepMs(points: readonly TracePoint[]): number {
  const steps = points.slice(1).map(([ms], i) => ms - points[i]![0])
  return steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0
}

export function traceOptions(
  picture: TracePicture,
  colours: ChartColours,
  f: Format,
  widthPx: number,
  onSpan?: (span: Span) => void,
): Options {
  const isF = f.unit === '°F'
  const shown = isF ? fahrenheit : (tempC: number) => tempC
  const [lowC, highC] = shownRange(picture)
  const zoneMs = -new Date(picture.fromMs).getTimezoneOffset() * 60_000
  return {
    animation: false,
    parsing: false,
    normalized: true,
    maintainAspectRatio: false,
    events: ['mousemove', 'mouseout', 'click', 'touchstart', 'touchmove'],
    interaction: { mode: 'nearest', axis: 'x', intersect: false },
    scales: {
      x: {
        type: 'linear',
        min: picture.fromMs,
        max: picture.toMs,
        grid: { color: colours.grid },
        border: { display: false },
        ticks: {
          color: colours.text,
          maxRotation: 0,
          autoSkip: false,
          callback: (value) => f.clock(Number(value)),
        },
        afterBuildTicks: (axis) => {
          axis.ticks = timeTicks(axis.min, axis.max, Math.max(2, widthPx / 90), zoneMs).map((value) => ({
            value,
          }))
        },
      },
      y: {
        min: Math.floor(shown(lowC)),
        max: Math.ceil(shown(highC)),
        grid: { color: colours.grid },
        border: { display: false },
        ticks: {
          color: colours.text,
          maxTicksLimit: 6,
          includeBounds: false,
          callback: (value) => `${value}°`,
        },
      },
    },
    plugins: {
      legend: { display: false },
      tooltip: {
        displayColors: false,
        callbacks: {
          title: (items) => items.map((item) => f.clock(item.parsed.x ?? 0)).slice(0, 1),
          label: (item) => `${f.amount(item.parsed.y ?? 0)} ${f.unit}`,
        },
      },
      annotation: { annotations: annotations(picture, colours, shown) },
      ...(onSpan === undefined ? {} : { zoom: zoomOptions(onSpan) }),
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

/** All there is to see, with a little room, °C. */
function shownRange(picture: TracePicture): readonly [number, number] {
  const inView = picture.points.filter(([ms]) => ms >= picture.fromMs && ms <= picture.toMs)
  const ahead = (picture.forecast ?? []).filter(([ms]) => ms <= picture.toMs)
  const limit = aheadLimit(picture)
  const temps = [...inView.map(([, tempC]) => tempC), ...ahead.map(([, tempC]) => limit(tempC))]
  const marks = [...(picture.windowC ?? []), picture.ceilingC, picture.goalC].filter((t) => t !== null)
  const all = [...temps, ...marks]
  if (all.length === 0) return [10, 100]
  const low = all.reduce((a, b) => Math.min(a, b))
  const high = all.reduce((a, b) => Math.max(a, b))
  const room = Math.max(1.5, (high - low) * 0.06)
  return [low - room, high + room]
}

/** What is only foreseen may leave the picture past the marks, so that it does not press the trace flat. */
function aheadLimit({ windowC, ceilingC, goalC }: TracePicture): (tempC: number) => number {
  const marks = [...(windowC ?? []), ceilingC, goalC].filter((t) => t !== null)
  if (marks.length === 0) return (tempC) => tempC
  const [low, high] = [Math.min(...marks) - PAST_C, Math.max(...marks) + PAST_C]
  return (tempC) => Math.min(high, Math.max(low, tempC))
}

const PAST_C = 5

function annotations(picture: TracePicture, colours: ChartColours, shown: (tempC: number) => number) {
  const found: Record<string, AnnotationOptions> = {}
  if (picture.windowC !== null)
    found['window'] = {
      type: 'box',
      yMin: shown(picture.windowC[0]),
      yMax: shown(picture.windowC[1]),
      backgroundColor: colours.window,
      borderColor: colours.windowEdge,
      borderWidth: 1,
      drawTime: 'beforeDatasetsDraw',
    }
  if (picture.ceilingC !== null)
    found['ceiling'] = across(shown(picture.ceilingC), colours.ceiling, [8, 4], 2)
  if (picture.goalC !== null) found['goal'] = across(shown(picture.goalC), colours.goal, [3, 4], 2)
  let labelledMs = -Infinity
  const apartMs = (picture.toMs - picture.fromMs) / 50
  for (const [i, event] of (picture.events ?? []).entries()) {
    const display = event.atMs - labelledMs > apartMs
    if (display) labelledMs = event.atMs
    found[`event${i}`] = {
      type: 'line',
      xMin: event.atMs,
      xMax: event.atMs,
      borderColor: colours.event,
      borderWidth: 1,
      borderDash: [2, 3],
      label: {
        display,
        content: event.text,
        position: 'start',
        rotation: -90,
        color: colours.text,
        backgroundColor: 'transparent',
        font: { size: 11, weight: 'normal' },
        xAdjust: -8,
        padding: 2,
      },
    }
  }
  return found
}

const across = (y: number, color: string, dash: number[], width: number): AnnotationOptions => ({
  type: 'line',
  yMin: y,
  yMax: y,
  borderColor: color,
  borderWidth: width,
  borderDash: dash,
})

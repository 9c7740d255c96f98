import type { ChartConfiguration, ChartDataset, ChartOptions } from 'chart.js'
import type { AnnotationOptions } from 'chartjs-plugin-annotation'
import { fahrenheit } from '#core/measure/units'
import type { ChartColours } from '../trace/chart-colours.ts'
import type { Format } from '../words/format.ts'

/** One curve with its band. `x` in the picture's own unit, temperatures °C. */
export interface Curve {
  readonly name: string
  readonly isDashed: boolean
  readonly points: readonly (readonly [x: number, tempC: number, low90C: number, high90C: number])[]
}

export interface CurvePicture {
  readonly curves: readonly Curve[]
  readonly xTitle: string
  readonly xMax: number
  readonly windowC: readonly [number, number] | null
  readonly ceilingC: number | null
  readonly goalC: number | null
}

type XY = { x: number; y: number }

/** Band first, so that the line lies on it. Three data sets a curve: upper edge, lower edge filled to it, line. */
export function curveData(
  { curves }: CurvePicture,
  colours: ChartColours,
  f: Format,
): ChartConfiguration<'line', XY[]>['data'] {
  const shown = (tempC: number) => (f.unit === '°F' ? fahrenheit(tempC) : tempC)
  const plain = { pointRadius: 0, pointHitRadius: 0, borderWidth: 0, borderColor: 'transparent' }
  return {
    datasets: curves.flatMap(({ name, isDashed, points }): ChartDataset<'line', XY[]>[] => [
      { ...plain, label: '', data: points.map(([x, , , high]) => ({ x, y: shown(high) })) },
      {
        ...plain,
        label: '',
        data: points.map(([x, , low]) => ({ x, y: shown(low) })),
        fill: '-1',
        backgroundColor: colours.band,
      },
      {
        label: name,
        data: points.map(([x, tempC]) => ({ x, y: shown(tempC) })),
        borderColor: isDashed ? colours.text : colours.line,
        borderDash: isDashed ? [6, 5] : [],
        borderWidth: 2.5,
        pointRadius: 0,
        pointHitRadius: 10,
      },
    ]),
  }
}

export function curveOptions(picture: CurvePicture, colours: ChartColours, f: Format): ChartOptions<'line'> {
  const shown = (tempC: number) => (f.unit === '°F' ? fahrenheit(tempC) : tempC)
  const [lowC, highC] = shownRange(picture)
  return {
    animation: false,
    parsing: false,
    normalized: true,
    maintainAspectRatio: false,
    interaction: { mode: 'nearest', axis: 'x', intersect: false },
    scales: {
      x: {
        type: 'linear',
        min: 0,
        max: picture.xMax,
        grid: { color: colours.grid },
        border: { display: false },
        title: { display: true, text: picture.xTitle, color: colours.text },
        ticks: { color: colours.text, maxRotation: 0, maxTicksLimit: 9 },
      },
      y: {
        min: Math.floor(shown(lowC)),
        max: Math.ceil(shown(highC)),
        grid: { color: colours.grid },
        border: { display: false },
        ticks: { color: colours.text, maxTicksLimit: 7, includeBounds: false, callback: (v) => `${v}°` },
      },
    },
    plugins: {
      legend: { display: false },
      tooltip: {
        displayColors: false,
        filter: (item) => item.dataset.label !== '',
        callbacks: {
          title: () => '',
          label: (item) => `${item.dataset.label}: ${f.amount(item.parsed.y ?? 0)} ${f.unit}`,
        },
      },
      annotation: { annotations: marks(picture, colours, shown) },
    },
  }
}

function shownRange({ curves, windowC, ceilingC, goalC }: CurvePicture): readonly [number, number] {
  const temps = curves.flatMap(({ points }) => points.flatMap(([, , low, high]) => [low, high]))
  const all = [...temps, ...(windowC ?? []), ceilingC, goalC].filter((t) => t !== null)
  if (all.length === 0) return [10, 100]
  const low = all.reduce((a, b) => Math.min(a, b))
  const high = all.reduce((a, b) => Math.max(a, b))
  const room = Math.max(1.5, (high - low) * 0.05)
  return [Math.max(-5, low - room), Math.min(125, high + room)]
}

function marks(picture: CurvePicture, colours: ChartColours, shown: (tempC: number) => number) {
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
  if (picture.ceilingC !== null) found['ceiling'] = across(shown(picture.ceilingC), colours.ceiling, [8, 4])
  if (picture.goalC !== null) found['goal'] = across(shown(picture.goalC), colours.goal, [3, 4])
  return found
}

const across = (y: number, color: string, dash: number[]): AnnotationOptions => ({
  type: 'line',
  yMin: y,
  yMax: y,
  borderColor: color,
  borderWidth: 2,
  borderDash: dash,
})

import type { ChartData, ChartOptions } from 'chart.js'
import { type BandedPoint, bandedLine, isLine } from '../chart/banded-line.ts'
import type { ChartColours } from '../chart/chart-colours.ts'
import { type Levels, levelMarks, levelTempsC } from '../chart/levels.ts'
import { PLAIN_OPTIONS, tempAxis } from '../chart/plain-options.ts'
import { rangeWithRoom } from '../chart/range-with-room.ts'
import { shownDegrees } from '../chart/shown-degrees.ts'
import type { XY } from '../chart/use-line-chart.ts'
import type { Format } from '../words/format.ts'

/** One curve with its band. `x` in the picture's own unit, temperatures °C. */
export interface Curve {
  readonly name: string
  readonly isDashed: boolean
  readonly points: readonly BandedPoint[]
}

export interface CurvePicture extends Levels {
  readonly curves: readonly Curve[]
  readonly xTitle: string
  readonly xMax: number
}

export function curveData(
  { curves }: CurvePicture,
  colours: ChartColours,
  f: Format,
): ChartData<'line', XY[]> {
  const shown = shownDegrees(f)
  return {
    datasets: curves.flatMap(({ name, isDashed, points }) => {
      const line = {
        label: name,
        borderColor: isDashed ? colours.text : colours.line,
        borderDash: isDashed ? [6, 5] : [],
        borderWidth: 2.5,
        pointHitRadius: 10,
      }
      return bandedLine(points, line, colours.band, shown)
    }),
  }
}

export function curveOptions(picture: CurvePicture, colours: ChartColours, f: Format): ChartOptions<'line'> {
  const shown = shownDegrees(f)
  return {
    ...PLAIN_OPTIONS,
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
      y: tempAxis(curveRange(picture), colours, shown),
    },
    plugins: {
      legend: { display: false },
      tooltip: {
        displayColors: false,
        filter: isLine,
        callbacks: {
          title: () => '',
          label: (item) => `${item.dataset.label}: ${f.amount(item.parsed.y ?? 0)} ${f.unit}`,
        },
      },
      annotation: { annotations: levelMarks(picture, colours, shown) },
    },
  }
}

/** Bands of a guess may be wide; nothing outside what a bath can be is drawn, °C. */
function curveRange(picture: CurvePicture): readonly [lowC: number, highC: number] {
  const bands = picture.curves.flatMap(({ points }) => points.flatMap(([, , low, high]) => [low, high]))
  const [lowC, highC] = rangeWithRoom([...bands, ...levelTempsC(picture)])
  return [Math.max(-5, lowC), Math.min(125, highC)]
}

import type { ChartData, ScriptableLineSegmentContext } from 'chart.js'
import { type Stretch, isInAir } from '#core/batch/in-air'
import type { TracePoint } from '../../state/trace-points.ts'
import { bandedLine } from '../chart/banded-line.ts'
import type { ChartColours } from '../chart/chart-colours.ts'
import type { XY } from '../chart/use-line-chart.ts'
import type { TracePicture } from './trace-picture.ts'

/** A longer stretch without a reading is left open: nothing is drawn that was not read, ms. */
const GAP_MS = 60_000

/** The trace, and dashed what is foreseen with its band. `shown`: °C to the person's unit. */
export function traceData(
  { points, forecast = [], inAir = [] }: TracePicture,
  colours: ChartColours,
  shown: (tempC: number) => number,
): ChartData<'line', XY[]> {
  const ahead = { borderColor: colours.line, borderDash: [5, 5], borderWidth: 2, pointHitRadius: 4 }
  return {
    datasets: [
      {
        data: points.map(([x, y]) => ({ x, y: shown(y) })),
        borderColor: colours.line,
        borderWidth: 2,
        pointRadius: points.length < 2 ? 3 : 0,
        pointHitRadius: 8,
        ...(inAir.length === 0 ? {} : { segment: dottedIn(inAir, colours) }),
        spanGaps: Math.max(GAP_MS, 4 * typicalStepMs(points)),
      },
      ...(forecast.length === 0 ? [] : bandedLine(forecast, ahead, colours.band, shown)),
    ],
  }
}

/** A probe in the air is no bath that cools. */
const dottedIn = (inAir: readonly Stretch[], colours: ChartColours) => {
  const isOf = ({ p1 }: ScriptableLineSegmentContext) => isInAir(p1.parsed.x ?? 0, inAir)
  return {
    borderColor: (at: ScriptableLineSegmentContext) => (isOf(at) ? colours.text : undefined),
    borderDash: (at: ScriptableLineSegmentContext) => (isOf(at) ? [2, 5] : undefined),
  }
}

/** Thinned traces have longer steps than the probe's own; the median tells. */
function typicalStepMs(points: readonly TracePoint[]): number {
  const steps = points.slice(1).map(([ms], i) => ms - points[i]![0])
  return steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0
}

import type { ChartDataset, TooltipItem } from 'chart.js'
import type { XY } from './use-line-chart.ts'

/** `x` in the chart's own unit, temperatures °C, with the 90 % range. */
export type BandedPoint = readonly [x: number, tempC: number, low90C: number, high90C: number]

/** The band first, so that the line lies on it: upper edge, lower edge filled up to it, line. Edges have no label. */
export function bandedLine(
  points: readonly BandedPoint[],
  line: Partial<ChartDataset<'line', XY[]>>,
  bandColour: string,
  shown: (tempC: number) => number,
): ChartDataset<'line', XY[]>[] {
  const edge = { label: '', borderColor: 'transparent', borderWidth: 0, pointRadius: 0, pointHitRadius: 0 }
  return [
    { ...edge, data: points.map(([x, , , high]) => ({ x, y: shown(high) })) },
    {
      ...edge,
      data: points.map(([x, , low]) => ({ x, y: shown(low) })),
      fill: '-1',
      backgroundColor: bandColour,
    },
    { pointRadius: 0, ...line, data: points.map(([x, tempC]) => ({ x, y: shown(tempC) })) },
  ]
}

/** For tooltips: the edges of a band are not told. */
export const isLine = (item: TooltipItem<'line'>): boolean => item.dataset.label !== ''

import type { ChartData, ChartOptions } from 'chart.js'
import type { RefObject } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'
import { type ChartColours, chartColours } from './chart-colours.ts'
import type { Chart } from './chart-parts.ts'
import { chartNow, loadChart } from './load-chart.ts'

export type XY = { x: number; y: number }
export interface LinePicture {
  readonly data: ChartData<'line', XY[]>
  readonly options: ChartOptions<'line'>
}

/**
 * A canvas with one chart for the life of its component. `draw` says what is on it; it is called again, and the
 * chart redrawn without animation, when one of `drawnFrom`, the person's unit or light and dark has changed.
 */
export function useLineChart(
  draw: (colours: ChartColours, widthPx: number) => LinePicture,
  drawnFrom: readonly unknown[],
): RefObject<HTMLCanvasElement | null> {
  const { f } = useWords()
  const dark = usePage().state.isDark.value
  const canvas = useRef<HTMLCanvasElement>(null)
  const chart = useRef<Chart<'line', XY[]> | null>(null)
  const ChartClass = useChartClass()
  useEffect(() => {
    const at = canvas.current
    if (ChartClass === null || at === null) return
    const picture = draw(chartColours(at), at.parentElement?.clientWidth ?? at.width)
    if (chart.current === null) chart.current = new ChartClass(at, { type: 'line', ...picture })
    else {
      Object.assign(chart.current, picture)
      chart.current.update('none')
    }
  }, [...drawnFrom, f.unit, dark, ChartClass])
  useEffect(() => () => chart.current?.destroy(), [])
  return canvas
}

function useChartClass(): typeof Chart | null {
  const [held, setHeld] = useState({ ChartClass: chartNow() })
  useEffect(() => {
    let isWanted = true
    if (held.ChartClass === null) void loadChart().then((ChartClass) => isWanted && setHeld({ ChartClass }))
    return () => void (isWanted = false)
  }, [])
  return held.ChartClass
}

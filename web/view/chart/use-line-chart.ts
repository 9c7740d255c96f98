import type { RefObject } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'
import { type ChartColours, chartColours } from './chart-colours.ts'
import { Chart } from './chart-parts.ts'

export type XY = { x: number; y: number }
export type LineChart = Chart<'line', XY[]>

/**
 * A canvas with one chart for the life of its component. `draw` sets data and options; it is called again, and the
 * chart redrawn without animation, when one of `drawnFrom`, the person's unit or light and dark has changed.
 */
export function useLineChart(
  draw: (chart: LineChart, colours: ChartColours) => void,
  drawnFrom: readonly unknown[],
): RefObject<HTMLCanvasElement | null> {
  const { f } = useWords()
  const dark = usePage().state.isDark.value
  const canvas = useRef<HTMLCanvasElement>(null)
  const chart = useRef<LineChart | null>(null)
  useEffect(() => {
    const made: LineChart = new Chart(canvas.current!, { type: 'line', data: { datasets: [] } })
    chart.current = made
    return () => made.destroy()
  }, [])
  useEffect(() => {
    if (chart.current === null || canvas.current === null) return
    draw(chart.current, chartColours(canvas.current))
    chart.current.update('none')
  }, [...drawnFrom, f.unit, dark])
  return canvas
}

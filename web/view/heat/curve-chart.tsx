import { useEffect, useRef } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'
import { chartColours } from '../trace/chart-colours.ts'
import { Chart } from '../trace/chart-parts.ts'
import { useDark } from '../trace/use-dark.ts'
import { type CurvePicture, curveData, curveOptions } from './curve-picture.ts'

/** Draws curves with their bands. The same is told in words or a table beside it. */
export function CurveChart({ picture, label }: { readonly picture: CurvePicture; readonly label: string }) {
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
    if (chart.current === null || canvas.current === null) return
    const colours = chartColours(canvas.current)
    chart.current.data = curveData(picture, colours, f)
    chart.current.options = curveOptions(picture, colours, f)
    chart.current.update('none')
  }, [picture, f.unit, dark])
  return (
    <div class="trace curve">
      <canvas ref={canvas} role="img" aria-label={label} />
    </div>
  )
}

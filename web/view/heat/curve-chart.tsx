import { useLineChart } from '../chart/use-line-chart.ts'
import { useWords } from '../page-context.ts'
import { type CurvePicture, curveData, curveOptions } from './curve-picture.ts'

/** Draws curves with their bands. The same is told in words or a table beside it. */
export function CurveChart({ picture, label }: { readonly picture: CurvePicture; readonly label: string }) {
  const { f } = useWords()
  const canvas = useLineChart(
    (colours) => ({ data: curveData(picture, colours, f), options: curveOptions(picture, colours, f) }),
    [picture],
  )
  return (
    <div class="trace curve">
      <canvas ref={canvas} role="img" aria-label={label} />
    </div>
  )
}

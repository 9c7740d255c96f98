import { thinPoints } from '#core/measure/thin-points'
import type { TracePoint } from '../../state/trace-points.ts'
import { useWords } from '../page-context.ts'

/** So many rows are still read by a person; lowest and highest of each stretch are among them. */
const ROWS = 60

/** The trace for those who can't see the line. */
export function TraceTable({ points }: { readonly points: readonly TracePoint[] }) {
  const { w, f } = useWords()
  if (points.length === 0) return null
  return (
    <details>
      <summary>{w.batch.asTable}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{w.batch.timeColumn}</th>
            <th scope="col">{f.unit}</th>
          </tr>
        </thead>
        <tbody>
          {thinPoints(points, ROWS).map(([atMs, tempC]) => (
            <tr key={atMs}>
              <td>{f.day(atMs)}</td>
              <td>{f.number(tempC)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}

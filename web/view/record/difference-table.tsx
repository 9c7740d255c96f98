import type { Difference } from '#core/batch/rank-differences'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'
import { differenceName, differenceValue } from './difference-words.ts'

/** What differs, one line each, a column a batch; in the order it came in. */
export function DifferenceTable(props: {
  readonly differences: readonly Difference[]
  /** One a batch, as the columns are headed. */
  readonly heads: readonly string[]
  readonly caption: string
}) {
  const { w, f } = useWords()
  return (
    <ScrollTable label={props.caption} look="differences">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <td />
          {props.heads.map((head, i) => (
            <th key={i} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {props.differences.map((difference) => (
          <tr key={`${difference.what} ${difference.of}`}>
            <th scope="row">{differenceName(difference, w)}</th>
            {difference.values.map((value, i) => (
              <td key={i}>{differenceValue(difference.what, value, w, f)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  )
}

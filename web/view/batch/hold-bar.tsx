import type { HoldBins } from '#core/plan/outcome'
import { useWords } from '../page-context.ts'

const BINS = ['inWindowS', 'belowWindowS', 'aboveWindowS', 'aboveCeilingS', 'goodsOutS', 'unknownS'] as const

/** The bins of a hold as one bar; the sentence above it says the same, so it is decoration for the ear. */
export function HoldBar({ bins }: { readonly bins: HoldBins }) {
  const { w } = useWords()
  const shown = BINS.filter((bin) => bins[bin] > 0)
  const total = shown.reduce((sum, bin) => sum + bins[bin], 0)
  if (total === 0) return null
  let fromS = 0
  return (
    <div>
      <svg
        class="hold-bar"
        viewBox="0 0 1000 24"
        preserveAspectRatio="none"
        aria-hidden="true"
        focusable="false"
      >
        {shown.map((bin) => {
          const x = (1000 * fromS) / total
          fromS += bins[bin]
          return (
            <rect
              key={bin}
              class={`bin bin-${bin}`}
              x={x}
              y={0}
              width={(1000 * bins[bin]) / total}
              height={24}
            />
          )
        })}
      </svg>
      <ul class="bin-key" aria-hidden="true">
        {shown.map((bin) => (
          <li key={bin}>
            <svg class="bin-sample" viewBox="0 0 20 12" focusable="false">
              <rect class={`bin bin-${bin}`} width={20} height={12} />
            </svg>
            {w.batch.binNames[bin]}
          </li>
        ))}
      </ul>
    </div>
  )
}

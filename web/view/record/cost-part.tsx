import type { BatchCost } from '#core/batch/cost'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { RecordPart } from './record-part.tsx'

interface CostOfBatch {
  readonly cost: BatchCost
  readonly energy: { readonly kWh: number; readonly from: 'typed' | 'dial' | 'warming' } | null
  readonly currency: string | null
  readonly share01: number | null
}

/** What a batch cost: goods, what was weighed at its lot's price, energy and minutes. */
export function CostPart(props: { readonly batch: BatchWithEntries; readonly onChange: () => void }) {
  const { batch } = props
  return (
    <RecordPart
      batchId={batch.id}
      kind="cost"
      lines={standingOf(recordLines(batch.entries), 'cost')}
      names={{ batches: [], stages: batch.plan.stages }}
      onChange={props.onChange}
    >
      <Fetched key={batch.entries.length} batch={batch} />
    </RecordPart>
  )
}

/** Asked for again whenever a line was added. */
function Fetched({ batch }: { readonly batch: BatchWithEntries }) {
  const found = useAnswer<CostOfBatch>(`/api/batches/${batch.id}/cost`)
  return <Show of={found}>{(cost) => <Cost {...cost} isShared={batch.lots.length > 0} />}</Show>
}

function Cost({ cost, energy, currency, share01, isShared }: CostOfBatch & { readonly isShared: boolean }) {
  const { w, f } = useWords()
  const words = w.record.cost
  const nameOf = (name: string) => (isPart(name) ? words[name] : name)
  return (
    <>
      {cost.total > 0 && (
        <table>
          <caption>{words.title}</caption>
          <tbody>
            {(['goods', 'materials', 'energy', 'work', 'total'] as const).map((part) => (
              <tr key={part}>
                <th scope="row">{words[part]}</th>
                <td>{isLeftOut(cost, part) ? '–' : f.money(cost[part], currency)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {energy !== null && energy.from !== 'typed' && (
        <p class="row-more">{words.energyFrom[energy.from](f.amount(energy.kWh, 2))}</p>
      )}
      {isShared && (
        <p class="row-more">{share01 === null ? words.shareUnknown : words.share(f.amount(share01 * 100))}</p>
      )}
      {cost.total > 0 && cost.unknown.length > 0 && (
        <p class="row-more">{words.unknown([...new Set(cost.unknown)].map(nameOf).join(', '))}</p>
      )}
    </>
  )
}

const PARTS = ['goods', 'energy', 'work'] as const
type Part = (typeof PARTS)[number]
const isPart = (name: string): name is Part => PARTS.some((part) => part === name)

/** What has no price is not free of charge. Materials are left out when none of them has one. */
function isLeftOut(cost: BatchCost, part: Part | 'materials' | 'total'): boolean {
  if (part === 'total') return false
  if (part === 'materials') return cost.materials === 0 && cost.unknown.some((name) => !isPart(name))
  return cost.unknown.includes(part)
}

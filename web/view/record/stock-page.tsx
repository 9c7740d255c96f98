import { useState } from 'preact/hooks'
import { readNumber } from '#core/measure/read-number'
import { Show } from '../part/fetched.tsx'
import { TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import type { LotOnShelf } from './lot-on-shelf.ts'

/** The shelf: every lot with what is left of it. */
export function StockPage() {
  const { w } = useWords()
  const stock = useAnswer<readonly LotOnShelf[]>('/api/stock')
  return (
    <div class="wide">
      <h1>{w.record.stock.title}</h1>
      <Show of={stock}>
        {(lots) =>
          lots.length === 0 ? (
            <p>{w.record.stock.none}</p>
          ) : (
            <ul class="row-list">
              {lots.map((lot) => (
                <LotRow key={lot.id} lot={lot} onCounted={stock.again} />
              ))}
            </ul>
          )
        }
      </Show>
      <NewLot onAdded={stock.again} />
      <p class="caution">{w.record.weigh.dust}</p>
    </div>
  )
}

function LotRow({ lot, onCounted }: { readonly lot: LotOnShelf; readonly onCounted: () => void }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const [typed, setTyped] = useState<string | null>(null)
  const { stock } = w.record
  const counted = readNumber(typed ?? '')
  const more = [
    lot.harvestYear === undefined ? null : stock.year2(lot.harvestYear),
    lot.pricePerKg === undefined ? null : stock.priced(f.money(lot.pricePerKg)),
  ].filter((part) => part !== null)

  async function count(): Promise<void> {
    if (counted === null || counted < 0) return
    const { who } = state.settings.peek()
    const body = { kind: 'counted', grams: f.gramsOf(counted), ...(who === '' ? {} : { who }) }
    const put = await requests.ask('POST', `/api/stock/${lot.id}/events`, body)
    if (!put.ok) return void (state.refusal.value = put.why)
    setTyped(null)
    onCounted()
  }
  return (
    <li>
      <div class="row-main">
        <strong>
          {lot.material} · {lot.lot}
        </strong>
        {more.length > 0 && <p class="row-more">{more.join(' · ')}</p>}
      </div>
      <p class={lot.leftG < 0 ? 'field-error' : ''}>
        {stock.left(f.weight(lot.leftG))}
        {lot.leftG < 0 && ` (${stock.under})`}
      </p>
      {typed === null ? (
        <div class="buttons">
          <button
            type="button"
            class="button quiet"
            aria-label={stock.countOf(lot.lot)}
            onClick={() => setTyped('')}
          >
            {stock.count}
          </button>
          <a
            class="button quiet"
            href={`#/find/${encodeURIComponent(`lot:${lot.lot}`)}`}
            aria-label={stock.usedInOf(lot.lot)}
          >
            {stock.usedIn}
          </a>
        </div>
      ) : (
        <form
          class="one-line"
          onSubmit={(e) => {
            e.preventDefault()
            void count()
          }}
        >
          <TextField
            kind="number"
            label={stock.countOf(lot.lot)}
            unit={f.weightUnit}
            value={typed}
            onValue={setTyped}
          />
          <button type="submit" class="button main" disabled={counted === null || counted < 0}>
            {stock.countSave}
          </button>
        </form>
      )}
    </li>
  )
}

const EMPTY = { material: '', lot: '', year: '', price: '', received: '' }

function NewLot({ onAdded }: { readonly onAdded: () => void }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const [draft, setDraft] = useState(EMPTY)
  const { stock } = w.record
  const put = (part: Partial<typeof EMPTY>) => setDraft({ ...draft, ...part })
  const [year, price, received] = [draft.year, draft.price, draft.received].map(readNumber)
  const wrong = (text: string, value: number | null | undefined) =>
    text.trim() !== '' && !(typeof value === 'number' && value >= 0)
      ? w.record.problems['needs-number']
      : undefined
  const errors = [wrong(draft.year, year), wrong(draft.price, price), wrong(draft.received, received)]
  const whole =
    draft.material.trim() !== '' && draft.lot.trim() !== '' && errors.every((e) => e === undefined)

  async function keep(): Promise<void> {
    const body = {
      material: draft.material.trim(),
      lot: draft.lot.trim(),
      ...(typeof year === 'number' ? { harvestYear: year } : {}),
      ...(typeof price === 'number' ? { pricePerKg: price } : {}),
      ...(typeof received === 'number' ? { receivedG: f.gramsOf(received) } : {}),
    }
    const kept = await requests.ask('POST', '/api/stock', body)
    if (!kept.ok) return void (state.refusal.value = kept.why)
    setDraft(EMPTY)
    onAdded()
  }
  return (
    <form
      class="panel form"
      onSubmit={(e) => {
        e.preventDefault()
        if (whole) void keep()
      }}
    >
      <h2>{stock.add}</h2>
      <div class="field-grid">
        <TextField
          label={stock.material}
          help={stock.materialHelp}
          value={draft.material}
          onValue={(material) => put({ material })}
        />
        <TextField label={stock.lot} value={draft.lot} onValue={(lot) => put({ lot })} />
        <TextField
          kind="number"
          label={stock.received}
          unit={f.weightUnit}
          value={draft.received}
          error={errors[2]}
          onValue={(text) => put({ received: text })}
        />
        <TextField
          kind="number"
          label={stock.price}
          {...(f.moneyUnit === null ? {} : { unit: f.moneyUnit })}
          value={draft.price}
          error={errors[1]}
          onValue={(text) => put({ price: text })}
        />
        <TextField
          kind="number"
          label={stock.year}
          value={draft.year}
          error={errors[0]}
          onValue={(text) => put({ year: text })}
        />
      </div>
      <div class="buttons">
        <button type="submit" class="button main" disabled={!whole}>
          {stock.add}
        </button>
      </div>
    </form>
  )
}

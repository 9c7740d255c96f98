import { useState } from 'preact/hooks'
import type { LineOf } from '#core/batch/record-line'
import { roundToScale } from '#core/batch/scale-rounding'
import { weighedDifference } from '#core/batch/weighed'
import { stockMl } from '#core/batch/weighing'
import { readNumber } from '#core/measure/read-number'
import { SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { useAddLine } from './use-add-line.ts'
import type { LotOnShelf } from './lot-on-shelf.ts'

interface Props {
  readonly batchId: number
  readonly stageId: string
  readonly name: string
  /** Grams, exact; `null` while the water isn't known. */
  readonly needG: number | null
  /** What was put down before; another weighing takes its place and leaves it on record. */
  readonly line: LineOf<'weighing'> | undefined
  /** Of this material. */
  readonly lots: readonly LotOnShelf[]
  readonly onWeighed: () => void
}

/** One bowl: what to weigh, what was weighed, from which lot, and how far off. */
export function WeighRow(props: Props) {
  const { w, f } = useWords()
  const add = useAddLine(props.batchId)
  const [typed, setTyped] = useState('')
  const [chosen, setChosen] = useState<string | null>(null)
  const { name, needG, line, lots } = props
  const lotId = chosen ?? String(line?.body.lotId ?? fullest(lots)?.id ?? '')
  const lot = lots.find((one) => String(one.id) === lotId)
  const number = readNumber(typed)
  const weighedG = number === null || number < 0 ? null : Math.round(f.gramsOf(number) * 1000) / 1000
  const isWrong = typed.trim() !== '' && weighedG === null
  // What was weighed from this lot before is given back when another weighing takes its place.
  const givenBackG = line !== undefined && line.body.lotId === lot?.id ? line.body.weighedG : 0
  const isShort = lot !== undefined && weighedG !== null && weighedG > lot.leftG + givenBackG

  async function putDown(): Promise<void> {
    if (weighedG === null) return
    const body = {
      stageId: props.stageId,
      additive: name,
      weighedG,
      ...(needG === null ? {} : { plannedG: Math.round(needG * 1000) / 1000 }),
      ...(lot === undefined ? {} : { lotId: lot.id, lot: lot.lot }),
    }
    if (await add({ kind: 'weighing', body, ...(line === undefined ? {} : { replaces: line.id }) })) {
      setTyped('')
      props.onWeighed()
    }
  }
  return (
    <li class="weigh-row">
      <ToWeigh {...props} />
      <form
        class="weigh-form"
        noValidate
        onSubmit={(e) => {
          e.preventDefault()
          void putDown()
        }}
      >
        <TextField
          kind="number"
          label={w.record.weigh.weighed(name)}
          unit={f.weightUnit}
          value={typed}
          error={isWrong ? w.record.weigh.weightWrong : undefined}
          onValue={setTyped}
        />
        {lots.length > 0 && (
          <SelectField
            label={w.record.weigh.lot(name)}
            value={lotId}
            options={[
              ['', w.record.weigh.noLot],
              ...lots.map(
                (one) => [String(one.id), w.record.weigh.lotLeft(one.lot, f.weight(one.leftG))] as const,
              ),
            ]}
            onValue={setChosen}
          />
        )}
        <button
          type="submit"
          class="button main"
          aria-label={w.record.weigh.putDownOf(name)}
          disabled={weighedG === null}
        >
          {w.record.weigh.putDown}
        </button>
      </form>
      <div class="weigh-said" role="status">
        {weighedG !== null && needG !== null && <Off needG={needG} weighedG={weighedG} asking={true} />}
        {isShort && <p class="warning">{w.record.weigh.lotShort(f.weight(lot.leftG))}</p>}
      </div>
    </li>
  )
}

function ToWeigh({ name, needG, line }: Props) {
  const { w, f } = useWords()
  const { scaleStep } = usePage().state.settings.value
  const shown = needG === null ? null : roundToScale(f.weightOf(needG), scaleStep)
  return (
    <div class="to-weigh">
      <h3>{name}</h3>
      {shown === null || needG === null ? (
        <p class="row-more">{w.record.weigh.unknownWater}</p>
      ) : (
        <p class="weigh-number">
          {f.fixed(shown.shownG, shown.decimals)} <small>{f.weightUnit}</small>
        </p>
      )}
      {shown !== null && needG !== null && shown.isTooFine && (
        // A 1 % solution holds a gram in 100 mL.
        <p class="row-more">{w.record.weigh.tooFine(f.amount(stockMl(needG, 100, 1)))}</p>
      )}
      {line !== undefined && (
        <div class="weighed">
          <p>
            <strong>{w.record.weigh.done(f.weight(line.body.weighedG))}</strong>
            {line.body.lot !== undefined && ` · ${line.body.lot}`}
          </p>
          {needG !== null && <Off needG={needG} weighedG={line.body.weighedG} asking={false} />}
        </div>
      )}
    </div>
  )
}

/** How far off, in per cent; over five a second look is asked for while it can still be mended. */
function Off(props: { readonly needG: number; readonly weighedG: number; readonly asking: boolean }) {
  const { w, f } = useWords()
  const { percent, isOff } = weighedDifference(props.needG, props.weighedG)
  if (percent === null) return null
  const rounded = Math.round(percent * 10) / 10
  const text = `${rounded > 0 ? '+' : rounded < 0 ? '−' : ''}${f.amount(Math.abs(rounded))}`
  if (isOff)
    return <p class="warning">{props.asking ? w.record.weigh.offWarn(text) : w.record.weigh.off(text)}</p>
  return <p class="row-more">{rounded === 0 ? w.record.weigh.exact : w.record.weigh.off(text)}</p>
}

const fullest = (lots: readonly LotOnShelf[]): LotOnShelf | undefined =>
  [...lots].sort((a, b) => b.leftG - a.leftG)[0]

import { useState } from 'preact/hooks'
import { readNumber } from '#core/measure/read-number'
import { bathDryG } from '#core/batch/shared-bath'
import type { Shortage } from '#core/batch/stock'
import { SCALE_STEPS } from '../../state/device-settings.ts'
import { Show } from '../part/fetched.tsx'
import { SelectField, TextField } from '../part/field.tsx'
import { type Fetched, useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { BatchHead } from './batch-head.tsx'
import { CostPart } from './cost-part.tsx'
import { DryWeight } from './dry-weight.tsx'
import type { LotOnShelf } from './lot-on-shelf.ts'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { Shortages } from './shortages.tsx'
import { type StageToWeigh, WeighStage } from './weigh-stage.tsx'

interface Needs {
  readonly stages: readonly StageToWeigh[]
  readonly shortages: readonly Shortage[]
}

/** From the dry weight to what lies in the bowls: grams and litres out, weighed values in. */
export function WeighPage({ batchId }: { readonly batchId: number }) {
  const batch = useAnswer<BatchWithEntries>(`/api/batches/${batchId}`)
  const stock = useAnswer<readonly LotOnShelf[]>('/api/stock')
  return (
    <Show of={batch}>
      {(found) => (
        <Show of={stock}>
          {(lots) => (
            <Weighing
              batch={found}
              lots={lots}
              again={() => {
                batch.again()
                stock.again()
              }}
            />
          )}
        </Show>
      )}
    </Show>
  )
}

function Weighing(props: {
  readonly batch: BatchWithEntries
  readonly lots: readonly LotOnShelf[]
  readonly again: () => void
}) {
  const { w, f } = useWords()
  const { batch, lots } = props
  const [volume, setVolume] = useState('')
  const typed = readNumber(volume)
  const litres = typed !== null && typed > 0 ? `?litres=${f.litresOf(typed).toFixed(2)}` : ''
  const needs = useAnswer<Needs>(`/api/batches/${batch.id}/needs${litres}`)
  const asksLitres = batch.plan.stages.some(
    (s) => s.liquorRatio === undefined && s.additives.some((a) => 'gPerL' in a),
  )
  const again = () => {
    props.again()
    needs.again()
  }
  return (
    <div class="wide">
      <BatchHead batch={batch} title={w.record.weigh.title(batch.title)} here="weigh" />
      <section class="panel">
        <DryWeight batch={batch} onKept={again} />
        {batch.lots.length > 0 && (
          <p class="row-more">
            {w.record.lots.reckoned(f.weight(bathDryG(batch.lots) ?? 0), batch.lots.length)}
          </p>
        )}
        <div class="field-grid">
          <ScaleStep />
          {asksLitres && (
            <TextField
              kind="number"
              label={w.record.fields.litres}
              unit={f.volumeUnit}
              help={w.record.weigh.litresHelp}
              value={volume}
              onValue={setVolume}
            />
          )}
        </div>
      </section>
      <p class="caution">{w.record.weigh.dust}</p>
      <NeededStages batch={batch} lots={lots} needs={needs} again={again} />
      <CostPart batch={batch} onChange={again} />
    </div>
  )
}

function NeededStages(props: {
  readonly batch: BatchWithEntries
  readonly lots: readonly LotOnShelf[]
  readonly needs: Fetched<Needs>
  readonly again: () => void
}) {
  const { w } = useWords()
  const { batch, lots } = props
  const weighings = standingOf(recordLines(batch.entries), 'weighing')
  return (
    <Show of={props.needs}>
      {({ stages, shortages }) => (
        <>
          <Shortages shortages={shortages} stages={batch.plan.stages} />
          {batch.dryWeightG !== null && stages.every((s) => s.additives.length === 0) && (
            <p>{w.record.weigh.nothing}</p>
          )}
          {stages.map((needed, i) => {
            const stage = batch.plan.stages.find((s) => s.id === needed.stageId)
            return stage === undefined || (needed.additives.length === 0 && needed.litres === null) ? null : (
              <WeighStage
                key={stage.id}
                batchId={batch.id}
                stage={stage}
                no={i + 1}
                needed={needed}
                weighings={weighings}
                lots={lots}
                onWeighed={props.again}
              />
            )
          })}
        </>
      )}
    </Show>
  )
}

function ScaleStep() {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  return (
    <SelectField
      label={w.record.weigh.step}
      value={String(state.settings.value.scaleStep)}
      options={SCALE_STEPS.map((step) => [String(step), `${f.amount(step, 2)} ${f.weightUnit}`] as const)}
      onValue={(step) => acts.changeSettings({ scaleStep: Number(step) })}
    />
  )
}

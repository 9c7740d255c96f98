import { currentRecord } from '#core/batch/current-record'
import type { BatchRecord } from '#core/wire/records'
import { BathLots } from '../record/bath-lots.tsx'
import { NowPanel } from '../record/now-panel.tsx'
import { OutPart } from '../record/out-part.tsx'
import { type BatchWithEntries, recordLines } from '../record/record-lines.ts'
import { RecordShort } from '../record/record-short.tsx'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { BatchTag } from './batch-tag.tsx'
import { AlarmLog } from './batch-logs.tsx'
import { stageVerdict } from './stage-verdict.ts'
import { StageBlock } from './stage-block.tsx'

/** A running batch is fetched again so often, ms. */
const AGAIN_MS = 15_000

/** The whole record of a batch: what was planned, what was, and everything around it. */
export function BatchPage({ batchId }: { readonly batchId: number }) {
  const found = useAnswer<BatchWithEntries>(`/api/batches/${batchId}`, AGAIN_MS)
  return <Show of={found}>{(batch) => <Batch batch={batch} onChange={found.again} />}</Show>
}

function Batch({ batch, onChange }: { readonly batch: BatchWithEntries; readonly onChange: () => void }) {
  const { w, f } = useWords()
  return (
    <div class="wide">
      <header class="page-head">
        <div>
          <h1>{batch.title}</h1>
          <p class="row-more">
            {[
              w.batch.plan(batch.plan.title),
              batch.fibre,
              batch.dryWeightG === null ? null : w.batch.weight(f.weight(batch.dryWeightG)),
              w.batch.made(f.date(batch.madeMs)),
            ]
              .filter((part) => part !== null)
              .join(' · ')}
          </p>
        </div>
        <div class="buttons">
          <BatchTag state={batch.state} />
          {batch.potId !== null && batch.state === 'running' && (
            <a class="button" href={`#/pots/${encodeURIComponent(batch.potId)}`}>
              {w.batch.openPot}
            </a>
          )}
          {batch.state === 'planned' && (
            <a class="button main" href={`#/begin/${batch.id}`}>
              {w.batch.begin}
            </a>
          )}
          <a class="button" href={`#/weigh/${batch.id}`}>
            {w.record.weigh.open}
          </a>
          <a class="button" href={`#/record/${batch.id}`}>
            {w.record.open}
          </a>
          {batch.dryWeightG !== null && (
            <a class="button" href={`#/repeat/${batch.id}`}>
              {w.record.repeat.open}
            </a>
          )}
          <Differs batch={batch} />
          <button type="button" class="button quiet" onClick={() => globalThis.print()}>
            {w.batch.print}
          </button>
        </div>
      </header>
      {batch.state === 'running' && <NowPanel batch={batch} again={onChange} />}
      <BathLots batch={batch} again={onChange} />
      <RecordShort batch={batch} />
      <InShort batch={batch} />
      <h2 class="visually-hidden">{w.batch.stages}</h2>
      {batch.plan.stages.map((stage, i) => (
        <StageBlock key={stage.id} batch={batch} stage={stage} no={i + 1} onChange={onChange} />
      ))}
      <OutPart batch={batch} />
      <p class="caution">{w.batch.corrected}</p>
    </div>
  )
}

/** A planned batch that is to match an earlier one: what isn't as it was then. */
function Differs({ batch }: { readonly batch: BatchWithEntries }) {
  const { w } = useWords()
  const fromId = currentRecord(recordLines(batch.entries)).result.referenceBatchId
  if (fromId === undefined || batch.state === 'ended') return null
  return (
    <a class="button" href={`#/differs/${batch.id},${fromId}`}>
      {w.record.differs.title}
    </a>
  )
}

/** What a tired person reads first in the morning: one sentence a stage, and whether anything called. */
function InShort({ batch }: { readonly batch: BatchRecord }) {
  const { w, f } = useWords()
  const lines = batch.plan.stages.flatMap((stage) =>
    batch.stages
      .filter((run) => run.stageId === stage.id)
      .map((run) => ({ run, title: stage.title, text: stageVerdict(stage, run, w, f) })),
  )
  if (lines.length === 0) return null
  return (
    <section class="panel">
      <h2>{w.batch.inShort}</h2>
      <dl class="in-short">
        {lines.map(({ run, title, text }) => (
          <div key={run.id}>
            <dt>
              {title} <small>{f.day(run.startedMs)}</small>
            </dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <h3>{w.batch.alarms}</h3>
      <AlarmLog alarms={batch.alarms} />
    </section>
  )
}

import { inAirOf } from '#core/batch/in-air'
import { bathDryG } from '#core/batch/shared-bath'
import { cautionsOf } from '#core/plan/cautions'
import { wordsOf } from '#core/words/words-of'
import type { Stage } from '#core/plan/plan'
import type { BatchRecord, StageRun } from '#core/wire/records'
import { usePage, useWords } from '../page-context.ts'
import { AlarmLog, EventLog } from './batch-logs.tsx'
import { HoldBar } from './hold-bar.tsx'
import { StageAmounts } from './stage-amounts.tsx'
import { StageTable } from './stage-table.tsx'
import { StageTrace } from './stage-trace.tsx'
import { stageVerdict } from './stage-verdict.ts'

/** One stage: planned beside actual, and for each time it ran the trace with what happened on it. */
export function StageBlock(props: {
  readonly onChange: () => void
  readonly batch: BatchRecord
  readonly stage: Stage
  readonly no: number
}) {
  const { w, f } = useWords()
  const { batch, stage } = props
  const runs = batch.stages.filter((run) => run.stageId === stage.id)
  const cautions = cautionsOf(stage, wordsOf(f.person.language).cautions)
  return (
    <section class="panel stage-block">
      <h3>
        {props.no} · {stage.title}
      </h3>
      {runs.length === 0 && <p class="row-more">{w.batch.notRun}</p>}
      <div class="stage-cols">
        <StageTable stage={stage} run={runs.at(-1) ?? null} />
        <StageAmounts
          stage={stage}
          dryWeightG={batch.lots.length === 0 ? batch.dryWeightG : bathDryG(batch.lots)}
        />
      </div>
      {runs.map((run) => (
        <Run key={run.id} batch={batch} stage={stage} run={run} onChange={props.onChange} />
      ))}
      {cautions.length > 0 && (
        <details>
          <summary>{w.batch.cautionsTitle}</summary>
          <ul class="cautions">
            {cautions.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

function Run(props: {
  readonly batch: BatchRecord
  readonly stage: Stage
  readonly run: StageRun
  readonly onChange: () => void
}) {
  const { w, f } = useWords()
  const { batch, stage, run } = props
  const nowMs = usePage().state.nowMs.peek()
  const endMs = run.endedMs ?? nowMs
  const inRun = (atMs: number) => atMs >= run.startedMs && atMs <= endMs
  const events = batch.events.filter((e) => e.event.kind !== 'stage' && inRun(e.atMs))
  const alarms = batch.alarms.filter((a) => a.stageId === stage.id && inRun(a.raisedMs))
  return (
    <div class="run">
      <p class="verdict">{stageVerdict(stage, run, w, f)}</p>
      {run.outcome?.bins && <HoldBar bins={run.outcome.bins} />}
      {run.probe !== null && (
        <StageTrace
          stage={stage}
          probe={run.probe}
          fromMs={run.startedMs}
          toMs={endMs}
          events={events.filter((e) => (e.struckMs ?? null) === null)}
          inAir={inAirOf({ plan: batch.plan, runs: [run] }, alarms)}
        />
      )}
      <div class="stage-cols">
        <div>
          <h4>{w.batch.events}</h4>
          <EventLog events={events} batchId={batch.id} onChange={props.onChange} />
        </div>
        <div>
          <h4>{w.batch.alarms}</h4>
          <AlarmLog alarms={alarms} />
        </div>
      </div>
    </div>
  )
}

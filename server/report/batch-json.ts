import type { RecordLine } from '#core/batch/record-line'
import { eventWord } from '#core/plan/event'
import type { BatchFile } from '#core/wire/batch-file'
import type { AlarmRecord, EventRecord } from '#core/wire/records'
import { encodePlan } from '#core/wire/plan-file'
import type { ReportBatch, ReportStage } from './report-batch.ts'

const iso = (atMs: number): string => new Date(atMs).toISOString()
const isoOrNull = (atMs: number | null | undefined): string | null => (atMs == null ? null : iso(atMs))

/** A whole batch as plain JSON data, after the published schema (`docs/schema/batch.json`). */
export function batchJson(report: ReportBatch, lines: readonly RecordLine[]): BatchFile {
  const { batch } = report
  return {
    format: 'holdfast-batch-1',
    id: batch.id,
    title: batch.title,
    madeAt: iso(batch.madeMs),
    state: batch.state,
    fibre: batch.fibre,
    dryWeightG: batch.dryWeightG,
    bathOf: batch.bathOf,
    lots: batch.lots.map(({ id, title, dryWeightG }) => ({ id, title, dryWeightG })),
    plan: encodePlan(batch.plan) as BatchFile['plan'],
    stages: report.stages.map(stageJson),
    events: batch.events.map(eventJson),
    alarms: batch.alarms.map(alarmJson),
    record: lines.map((line) => ({
      id: line.id,
      at: iso(line.atMs),
      notedAt: iso(line.notedMs),
      who: line.who,
      kind: line.kind,
      body: { ...line.body },
      replaces: line.replaces,
    })),
  }
}

const eventJson = (event: EventRecord): BatchFile['events'][number] => ({
  at: iso(event.atMs),
  notedAt: iso(event.notedMs),
  stageId: event.stageId,
  pot: event.potId,
  event: eventWord(event.event),
  who: event.who,
})

const alarmJson = (alarm: AlarmRecord): BatchFile['alarms'][number] => ({
  alarm: alarm.alarm,
  urgency: alarm.urgency,
  stageId: alarm.stageId,
  sinceAt: iso(alarm.sinceMs),
  raisedAt: iso(alarm.raisedMs),
  clearedAt: isoOrNull(alarm.clearedMs),
  acknowledgedAt: isoOrNull(alarm.acknowledgedMs),
  acknowledgedBy: alarm.acknowledgedBy,
  limitC: alarm.limitC,
  peakC: alarm.peakC,
  text: alarm.text,
})

const stageJson = ({ run, trace }: ReportStage): BatchFile['stages'][number] => ({
  stageId: run.stageId,
  pot: run.potId,
  probe: run.probe,
  startedAt: iso(run.startedMs),
  endedAt: isoOrNull(run.endedMs),
  bins: run.outcome?.bins ?? null,
  minC: run.outcome?.minC ?? null,
  maxC: run.outcome?.maxC ?? null,
  doneAt: isoOrNull(run.outcome?.doneMs),
  trace: trace.map(([atMs, tempC]) => [iso(atMs), tempC]),
})

import { isBackDated } from '#core/batch/is-back-dated'
import type { Stage } from '#core/plan/plan'
import type { EventRecord } from '#core/wire/records'
import { eventText } from './event-text.ts'
import { holdText } from './hold-text.ts'
import { type Markup, html } from './html.ts'
import type { ReportBatch, ReportStage } from './report-batch.ts'
import type { Writing } from './sheet-parts.ts'
import { tracePicture } from './trace-picture.ts'

/** One stage as it ran: what was planned, what it came to, its picture, what was noted and what called. */
export function stagePart(ran: ReportStage, report: ReportBatch, writing: Writing): Markup {
  const stage = report.batch.plan.stages.find((s) => s.id === ran.run.stageId)
  if (stage === undefined) return html``
  const outcome = outcomeText(ran, stage, writing)
  const events = report.batch.events.filter((e) => isOf(e, ran))
  return html`<section>
    <h3>${stage.title}</h3>
    <p>${planText(stage, writing)}</p>
    <p>${whenAndWhere(ran, report, writing)}</p>
    ${outcome === null ? null : html`<p><strong>${outcome}</strong></p>`}
    ${picture(ran, stage, events, writing)} ${eventList(events, writing)} ${alarmList(ran, report, writing)}
  </section>`
}

/** The same in one paragraph, without its picture. */
export function stageLine(ran: ReportStage, report: ReportBatch, writing: Writing): Markup {
  const stage = report.batch.plan.stages.find((s) => s.id === ran.run.stageId)
  if (stage === undefined) return html``
  const outcome = outcomeText(ran, stage, writing)
  return html`<p>
    <strong>${stage.title}:</strong> ${planText(stage, writing)}. ${whenAndWhere(ran, report, writing)}.
    ${outcome}
  </p>`
}

function whenAndWhere({ run }: ReportStage, report: ReportBatch, { f, words }: Writing): string {
  const until = run.endedMs === null ? words.stillRunning : f.dateTime(run.endedMs)
  const where = [report.potTitles[run.potId] ?? run.potId, run.probe ?? ''].filter((w) => w !== '')
  return `${f.dateTime(run.startedMs)} – ${until}; ${where.join(', ')}`
}

const outcomeText = ({ run }: ReportStage, stage: Stage, { reader, words }: Writing): string | null =>
  run.outcome === null || stage.kind !== 'hold' ? null : holdText(run.outcome, stage, reader, words)

const isOf = (event: EventRecord, { run }: ReportStage): boolean =>
  event.event.kind !== 'stage' &&
  event.potId === run.potId &&
  event.atMs >= run.startedMs &&
  event.atMs <= (run.endedMs ?? Number.POSITIVE_INFINITY)

/** What the plan asks of a stage, in one line. */
export function planText(stage: Stage, { f, words }: Writing): string {
  const window = 'windowC' in stage ? [`${words.window} ${f.window(stage.windowC)}`] : []
  const ceiling =
    'ceilingC' in stage && stage.ceilingC !== undefined ? [`${words.ceiling} ${f.temp(stage.ceilingC)}`] : []
  const minutes = stage.kind === 'hold' ? stage.holdMin : 'minutes' in stage ? stage.minutes : undefined
  const length = minutes === undefined ? [] : [words.minutesOf(f.minutes(minutes))]
  const cool = stage.kind === 'cool' ? [words.coolTo(f.temp(stage.coolToC))] : []
  return [...window, ...ceiling, ...length, ...cool].join('; ')
}

function picture(ran: ReportStage, stage: Stage, events: readonly EventRecord[], writing: Writing): Markup {
  const { f, words, reader } = writing
  if (ran.trace.length < 2) return html`<p class="small">${words.noReadings}</p>`
  return tracePicture(ran.trace, stage, {
    id: `hatch-${ran.run.id}`,
    unit: reader.unit,
    timeLabel: f.time,
    marks: events.map((event) => ({ atMs: event.atMs, label: eventText(event.event, writing) })),
    description: words.pictureOf(stage.title),
  })
}

function eventList(events: readonly EventRecord[], writing: Writing): Markup {
  if (events.length === 0) return html``
  const { f } = writing
  return html`<ol class="small">
    ${events.map((event) => {
      const who = event.who === null ? '' : `, ${event.who}`
      const late = isBackDated(event) ? ` (${writing.words.notedAt(f.time(event.notedMs))})` : ''
      return html`<li>${f.time(event.atMs)} ${eventText(event.event, writing)}${who}${late}</li>`
    })}
  </ol>`
}

function alarmList({ run }: ReportStage, report: ReportBatch, { f, words }: Writing): Markup {
  const own = report.batch.alarms.filter((alarm) => alarm.stageId === run.stageId)
  if (own.length === 0) return html``
  return html`<p class="small"><strong>${words.alarms}</strong></p>
    <ul class="small">
      ${own.map((alarm) => {
        const answered =
          alarm.acknowledgedMs === null
            ? words.nobody
            : `${alarm.acknowledgedBy ?? ''} ${f.time(alarm.acknowledgedMs)}`.trim()
        return html`<li>${f.time(alarm.raisedMs)} ${alarm.text} (${words.answered}: ${answered})</li>`
      })}
    </ul>`
}

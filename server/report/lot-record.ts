import { additivesByRole } from '#core/batch/additive-roles'
import { html } from './html.ts'
import { heldFor } from './hold-text.ts'
import { page } from './page.ts'
import type { PrintFor } from './print-for.ts'
import { fastnessPart, goodsPart, resultPart } from './record-parts.ts'
import type { ReportBatch, ReportStage } from './report-batch.ts'
import { type Writing, facts, head, section, table, writingFor } from './sheet-parts.ts'
import { tracePicture } from './trace-picture.ts'

/** A buyer's lot record: goods, what was done in which time, the traces, the result; no recipe amounts. */
export function lotRecord(report: ReportBatch, reader: PrintFor): string {
  const writing = writingFor(reader)
  const { f, words } = writing
  const { batch, record } = report
  const lot = record.goods.lot ?? String(batch.id)
  const { mordants, dyes } = additivesByRole(batch.plan)
  const right = [
    `${words.lot} ${lot}`,
    f.date(batch.madeMs),
    `${words.printed} ${f.dateTime(report.printedMs)}`,
  ]
  const body = html`${head(words.lotRecord, batch.title, right, writing)}
    <main>
      <div class="two">
        <div>
          ${section(words.goods, goodsPart(report, writing))}
          ${section(
            words.dyedWith,
            facts([
              [words.dyedWith, dyes.join(', ')],
              [words.mordant, mordants.join(', ')],
            ]),
          )}
        </div>
        <div class="swatch">${words.swatch}</div>
      </div>
      ${section(words.stage, stageTable(report, writing))}
      ${report.stages.map((stage) => picture(stage, report, writing))}
      <p class="small">${words.gapNote}</p>
      ${section(words.result, resultPart(record.result, writing))}
      ${section(words.fastness, fastnessOrNone(report, writing))}
    </main>
    <div class="sign"><span>${words.signed}</span><span>${words.date}</span></div>
    <footer>${words.lotsVary}</footer>`
  return page(`${words.lotRecord} ${lot}`, reader, body)
}

function fastnessOrNone(report: ReportBatch, writing: Writing) {
  const found = fastnessPart(report.record.fastness, writing)
  return found.length === 0 ? [html`<p>${writing.words.noFastness}</p>`] : found
}

function stageTable(report: ReportBatch, { f, words }: Writing) {
  const rows = report.stages.map(({ run }) => {
    const stage = report.batch.plan.stages.find((s) => s.id === run.stageId)
    const { outcome } = run
    return [
      stage?.title ?? run.stageId,
      f.dateTime(run.startedMs),
      run.endedMs === null ? words.stillRunning : f.dateTime(run.endedMs),
      f.temp(outcome?.minC ?? null),
      f.temp(outcome?.maxC ?? null),
      outcome === null || stage?.kind !== 'hold' ? '' : (heldFor(outcome, f, words) ?? words.neverHeld),
    ]
  })
  const columns = [words.stage, words.from, words.to, words.lowest, words.highest, words.hold]
  return table(
    columns.map((title) => ({ title })),
    rows,
  )
}

function picture({ run, trace }: ReportStage, report: ReportBatch, { f, words, reader }: Writing) {
  const stage = report.batch.plan.stages.find((s) => s.id === run.stageId)
  if (stage === undefined || trace.length < 2) return null
  return html`<div class="keep">
    <h3>${stage.title}</h3>
    ${tracePicture(trace, stage, {
      id: `hatch-${run.id}`,
      unit: reader.unit,
      timeLabel: f.time,
      marks: [],
      description: words.pictureOf(stage.title),
    })}
  </div>`
}

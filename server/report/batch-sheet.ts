import { bathPart } from './bath-part.ts'
import { type Markup, html } from './html.ts'
import { page } from './page.ts'
import { photosPart } from './photos-part.ts'
import type { PrintFor } from './print-for.ts'
import {
  correctionsPart,
  fastnessPart,
  goodsPart,
  phPart,
  preparationPart,
  resultPart,
  waterPart,
  weighingPart,
} from './record-parts.ts'
import type { ReportBatch } from './report-batch.ts'
import { type Writing, cautionsPart, head, section, writingFor } from './sheet-parts.ts'
import { stagePart } from './stage-part.ts'

/** The dyer's own sheet of a batch: everything that was planned, weighed, run, noted and found. */
export function batchSheet(report: ReportBatch, reader: PrintFor): string {
  const writing = writingFor(reader)
  const { f, words } = writing
  const { batch } = report
  const right = [
    `${words.batch} ${batch.id}`,
    `${words.made} ${f.date(batch.madeMs)}`,
    `${words.printed} ${f.dateTime(report.printedMs)}`,
  ]
  const body = html`${head(words.batchSheet, batch.title, right, writing)}
    <main>
      <p>${words.plan}: ${batch.planTitle}</p>
      <div class="two">
        <div>${beforeTheBath(report, writing)}</div>
        <div class="swatch">${words.staple}</div>
      </div>
      ${section(words.weighing, weighingPart(report, writing))} ${traces(report, writing)}
      ${section(words.checks, phPart(report, writing))} ${section(words.photos, photosPart(report, writing))}
      ${section(words.result, resultPart(report.record.result, writing))}
      ${section(words.fastness, fastnessPart(report.record.fastness, writing))} ${notes(report, writing)}
      ${section(words.corrections, correctionsPart(report, writing))}
      ${cautionsPart(batch.plan.stages, writing)}
    </main>
    <div class="sign"><span>${words.signed}</span><span>${words.date}</span></div>
    <footer>${words.safety}</footer>`
  return page(`${words.batch} ${batch.id}: ${batch.title}`, reader, body)
}

function beforeTheBath(report: ReportBatch, writing: Writing): Markup {
  const { words } = writing
  return html`${section(words.goods, goodsPart(report, writing))}
  ${section(words.oneBath, bathPart(report, writing))} ${section(words.water, waterPart(report, writing))}
  ${section(words.preparation, preparationPart(report, writing))}`
}

function traces(report: ReportBatch, writing: Writing): Markup {
  if (report.stages.length === 0) return html``
  return html`<section>
    <h2>${writing.words.trace}</h2>
    ${report.stages.map((stage) => stagePart(stage, report, writing))}
    <p class="small">${writing.words.gapNote}</p>
  </section>`
}

function notes({ record }: ReportBatch, { f, words }: Writing): Markup {
  const items = record.notes.map((line) => html`<li>${f.dateTime(line.atMs)} ${line.body.text}</li>`)
  return section(
    words.notes,
    items.length === 0
      ? []
      : [
          html`<ul>
            ${items}
          </ul>`,
        ],
  )
}

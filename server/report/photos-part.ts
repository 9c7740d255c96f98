import { type Markup, html } from './html.ts'
import type { ReportBatch } from './report-batch.ts'
import type { Writing } from './sheet-parts.ts'

/**
 * Photos with what they show and when; those that aren't at hand stand there in words. A grey print loses the colour:
 * what it was stands in words and CIELAB with the result.
 */
export function photosPart(report: ReportBatch, writing: Writing): readonly Markup[] {
  const { photos } = report.record
  if (photos.length === 0) return []
  const shown = photos.filter(({ body }) => report.pictures[body.fileId] !== undefined)
  const told = photos.filter(({ body }) => report.pictures[body.fileId] === undefined)
  return [
    html`<div class="photos">${shown.map((line) => figure(line, report, writing))}</div>`,
    told.length === 0
      ? html``
      : html`<ul>
          ${told.map((line) => html`<li>${captionOf(line, writing)}</li>`)}
        </ul>`,
  ]
}

/** The newest photo of the dry goods, else the newest of all: a class page is one page. */
export function onePhoto(report: ReportBatch, writing: Writing): Markup {
  const shown = report.record.photos.filter(({ body }) => report.pictures[body.fileId] !== undefined)
  const line = shown.findLast(({ body }) => body.of === 'dry') ?? shown.at(-1)
  return line === undefined ? html`` : html`<div class="photo">${figure(line, report, writing)}</div>`
}

function figure(line: PhotoLine, report: ReportBatch, writing: Writing): Markup {
  const text = captionOf(line, writing)
  return html`<figure>
    <img src="${report.pictures[line.body.fileId]!}" alt="${text}" />
    <figcaption class="small">${text}</figcaption>
  </figure>`
}

type PhotoLine = ReportBatch['record']['photos'][number]

function captionOf({ atMs, body }: PhotoLine, { f, words }: Writing): string {
  const caption = body.caption === undefined ? '' : `: ${body.caption}`
  return `${f.dateTime(atMs)} ${words.photoOf[body.of]}${caption}`
}

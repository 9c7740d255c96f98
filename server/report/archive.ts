import { encodePlan } from '#core/wire/plan-file'
import type { BatchSummary } from '#core/wire/records'
import type { Store } from '../store/store.ts'
import { batchJson } from './batch-json.ts'
import { batchSheet } from './batch-sheet.ts'
import { traceCsv } from './csv.ts'
import { formatFor } from './format.ts'
import { type Gathered, gatherReport } from './gather-report.ts'
import { html } from './html.ts'
import { page } from './page.ts'
import type { PrintFor } from './print-for.ts'
import { wordsFor } from './words-for.ts'

/** One file of an archive; `name` may have folders in it, with `/`. */
export interface ArchiveFile {
  readonly name: string
  readonly content: string | Buffer
}

/**
 * A batch as files that open without this program: the sheet for a browser, the whole record as JSON, the plan, the
 * trace, and the photos. `null` when there is no such batch.
 */
export async function archiveOfBatch(
  store: Store,
  id: number,
  reader: PrintFor,
  nowMs: number,
): Promise<readonly ArchiveFile[] | null> {
  const gathered = await gatherReport(store, id, nowMs, { person: reader, withPictures: true })
  if (gathered === null) return null
  const { report, lines } = gathered
  const trace = report.stages.flatMap((stage) => stage.trace).sort((a, b) => a[0] - b[0])
  return [
    { name: 'sheet.html', content: batchSheet(report, reader) },
    { name: 'batch.json', content: json(batchJson(report, lines)) },
    { name: 'plan.plan.json', content: json(encodePlan(report.batch.plan)) },
    { name: 'trace.csv', content: traceCsv(trace, report.batch.events) },
    ...(await photosOf(store, gathered)),
  ]
}

async function photosOf(store: Store, { report }: Gathered): Promise<readonly ArchiveFile[]> {
  const ids = [...new Set(report.record.photos.map((line) => line.body.fileId))]
  const photos = await Promise.all(ids.map((id) => store.photos.get(id)))
  return photos
    .filter((photo) => photo !== null)
    .map((photo) => ({ name: `photos/${photo.id}.${ENDINGS[photo.type]}`, content: photo.bytes }))
}

const ENDINGS = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' } as const

/** The first page of a whole-studio archive: every batch with links to its files, in folders `batch-<id>`. */
export function archiveIndex(batches: readonly BatchSummary[], reader: PrintFor): string {
  const words = wordsFor(reader.language)
  const f = formatFor(reader)
  const rows = batches.map((batch) => {
    const folder = `batch-${batch.id}`
    return html`<tr>
      <td class="number">${batch.id}</td>
      <td><a href="${folder}/sheet.html">${batch.title}</a></td>
      <td>${batch.planTitle}</td>
      <td>${f.date(batch.madeMs)}</td>
      <td><a href="${folder}/trace.csv">CSV</a> <a href="${folder}/batch.json">JSON</a></td>
    </tr>`
  })
  const head = [words.batch, words.what, words.plan, words.made, words.trace]
  const body = html`<header><h1>${reader.studio === '' ? words.archive : reader.studio}</h1></header>
    <main>
      <table>
        <thead>
          <tr>
            ${head.map((title) => html`<th>${title}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows}
        </tbody>
      </table>
    </main>`
  return page(words.archive, reader, body)
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`

import { additivesByRole } from '#core/batch/additive-roles'
import { html } from './html.ts'
import { page } from './page.ts'
import type { PrintFor } from './print-for.ts'
import { qrPicture } from './qr-picture.ts'
import { fastnessPart } from './record-parts.ts'
import type { ReportBatch } from './report-batch.ts'
import { writingFor } from './sheet-parts.ts'

/**
 * A customer's tag: lot, fibre, what it was dyed and mordanted with, care and an honest word on fastness. No
 * amounts: those are the dyer's. `link`: what the QR code holds, the lot's page or just its number.
 */
export function customerTag(report: ReportBatch, reader: PrintFor, link: string): string {
  const writing = writingFor(reader)
  const { f, words } = writing
  const { batch, record } = report
  const lot = record.goods.lot ?? String(batch.id)
  const { mordants, dyes } = additivesByRole(batch.plan)
  const fastness = fastnessPart(record.fastness, writing)
  const body = html`<main>
    <div>
      <p>${reader.studio}</p>
      <h1>${batch.title}</h1>
      <p>${words.lot} ${lot} · ${f.date(batch.madeMs)}</p>
      <p>${words.fibre}: ${record.goods.fibre ?? batch.fibre ?? '–'}</p>
      ${dyes.length === 0 ? null : html`<p>${words.dyedWith}: ${dyes.join(', ')}</p>`}
      ${mordants.length === 0 ? null : html`<p>${words.mordant}: ${mordants.join(', ')}</p>`}
    </div>
    <div class="qr">${qrPicture(link)}</div>
    <div style="grid-column: 1 / -1">
      ${words.careText.map((line) => html`<p>${line}</p>`)}
      ${fastness.length === 0 ? html`<p>${words.noFastness}</p>` : fastness}
      <p>${words.lotsVary}</p>
    </div>
  </main>`
  return page(`${words.customerTag} ${lot}`, reader, body, 'tag')
}

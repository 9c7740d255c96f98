import { html, type Markup } from './html.ts'
import type { ReportBatch } from './report-batch.ts'
import { type Writing, table } from './sheet-parts.ts'

/** The lots that lay in one bath with this one, and what they weighed; nothing when it lay there alone. */
export function bathPart({ batch, bathDryG }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  if (batch.lots.length === 0) return []
  const weight = (weightG: number | null) => (weightG === null ? '–' : f.weight(weightG))
  const rows = batch.lots.map((lot) => {
    const title = `${lot.id} · ${lot.title}`
    return [lot.id === batch.id ? html`<strong>${title}</strong>` : title, weight(lot.dryWeightG)]
  })
  return [
    ...table(
      [{ title: words.lot }, { title: words.dryWeight, isNumber: true }],
      [...rows, [words.wholeBath, weight(bathDryG)]],
    ),
    html`<p class="small">${words.oneBathNote}</p>`,
  ]
}

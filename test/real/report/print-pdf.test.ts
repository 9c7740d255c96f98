import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import { reportBatch } from '../../kit/report-batch.ts'
import { batchSheet } from '../../../server/report/batch-sheet.ts'
import { classPage } from '../../../server/report/class-page.ts'
import { printPdf } from '../../../server/report/print-pdf.ts'

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((p) =>
  existsSync(p),
)

test('a batch sheet prints to a PDF of whole pages', async () => {
  expect(CHROMIUM, 'the tests need a Chromium').toBeDefined()
  const pages = await pagesOf(batchSheet(reportBatch(), READER))
  expect(pages).toBeGreaterThanOrEqual(1)
  expect(pages).toBeLessThanOrEqual(3)
})

// The trade's own word for what goes out of a class: one page a pot.
test('a class page is one page, with names, recipe, trace, a photo and the cautions on it', async () => {
  const report = reportBatch()
  const body = { fileId: 'a', of: 'dry', caption: 'beside the grey card' } as const
  const line = { id: 90, atMs: report.printedMs, notedMs: report.printedMs, who: null, replaces: null }
  const photos = [{ ...line, kind: 'photo' as const, body }]
  const pictures = { a: `data:image/png;base64,${DOT}` }
  const pupils = ['Ash', 'Bryn', 'Caro']
  const page = classPage({ ...report, record: { ...report.record, photos }, pictures }, READER, pupils)
  expect(await pagesOf(page)).toBe(1)
})

const READER = {
  unit: 'C',
  weights: 'metric',
  zone: 'Europe/Lisbon',
  language: 'en',
  studio: 'Saltmarsh Lane Dyehouse',
} as const

/** A picture of one pixel, which a page draws as high as it is wide. */
const DOT = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg=='

async function pagesOf(html: string): Promise<number> {
  const printed = await printPdf(html, CHROMIUM!)
  expect(printed).toMatchObject({ ok: true })
  const pdf = printed.ok ? printed.pdf : Buffer.alloc(0)
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
  expect(pdf.length).toBeGreaterThan(10_000)
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
}

test('without a Chromium, or with one that does not start, the answer is a sentence', async () => {
  expect(await printPdf('<p>', null)).toMatchObject({ ok: false, why: expect.stringContaining('browser') })
  expect(await printPdf('<p>', '/nowhere/chromium')).toMatchObject({ ok: false })
})

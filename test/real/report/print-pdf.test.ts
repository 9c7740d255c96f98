import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import { reportBatch } from '../../kit/report-batch.ts'
import { batchSheet } from '../../../server/report/batch-sheet.ts'
import { printPdf } from '../../../server/report/print-pdf.ts'

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((p) =>
  existsSync(p),
)

test('a batch sheet prints to a PDF of whole pages', async () => {
  expect(CHROMIUM, 'the tests need a Chromium').toBeDefined()
  const html = batchSheet(reportBatch(), {
    unit: 'C',
    weights: 'metric',
    zone: 'Europe/Lisbon',
    language: 'en',
    studio: 'Saltmarsh Lane Dyehouse',
  })
  const printed = await printPdf(html, CHROMIUM!)
  expect(printed).toMatchObject({ ok: true })
  const pdf = printed.ok ? printed.pdf : Buffer.alloc(0)
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
  expect(pdf.length).toBeGreaterThan(10_000)
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
  expect(pages).toBeGreaterThanOrEqual(1)
  expect(pages).toBeLessThanOrEqual(3)
})

test('without a Chromium, or with one that does not start, the answer is a sentence', async () => {
  expect(await printPdf('<p>', null)).toMatchObject({ ok: false, why: expect.stringContaining('browser') })
  expect(await printPdf('<p>', '/nowhere/chromium')).toMatchObject({ ok: false })
})

import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { parseEvent } from '#core/plan/event'
import type { BatchSummary } from '#core/wire/records'
import { DAY_MS, reportBatch } from '../../kit/report-batch.ts'
import { batchSheet } from '../../../server/report/batch-sheet.ts'
import { classPage } from '../../../server/report/class-page.ts'
import { batchesCsv, traceCsv } from '../../../server/report/csv.ts'
import { customerTag } from '../../../server/report/customer-tag.ts'
import { escapeHtml, html } from '../../../server/report/html.ts'
import { lotRecord } from '../../../server/report/lot-record.ts'
import type { PrintFor } from '../../../server/report/print-for.ts'
import type { ReportBatch } from '../../../server/report/report-batch.ts'

const READER: PrintFor = {
  unit: 'C',
  weights: 'metric',
  zone: 'Europe/Lisbon',
  language: 'en',
  studio: 'Saltmarsh Lane Dyehouse',
}
const LINK = 'https://dyehouse.invalid/lot/M-12'
const text = (page: string) =>
  page
    .replaceAll(/<style>.*?<\/style>/gs, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/\s+/g, ' ')

test('the batch sheet tells the hold by clock and window, with the lowest and what is unknown', () => {
  // The seven-minute dip: 53 in, 7 below, lowest 76.2 °C.
  expect(text(batchSheet(reportBatch(), READER))).toContain(
    '60 min by the clock: 53 in the window, 7 below (lowest 76.2 °C, 1.8 °C under), 0 unknown. Not over the ceiling.',
  )
})

test('the batch sheet shows weighings with their difference, corrections, events, alarms and who answered', () => {
  const sheet = text(batchSheet(reportBatch(), READER))
  expect(sheet).toContain('30 g 32 g 6.7 %')
  expect(sheet).toMatch(/Bryn: weighing weighedG 3 → 32/)
  expect(sheet).toContain('09:31 topped up, Ash')
  expect(sheet).toContain('Answered: Ash 09:34')
  expect(sheet).toContain('A home test is not a lab test.')
  expect(sheet).toContain('no safety device')
})

test('a weighing that is far off is marked without colour', () => {
  expect(batchSheet(reportBatch(), READER)).toMatch(/<span class="off">\s*6.7 %\s*<\/span>/)
})

test('unit, weights, zone and language follow the reader', () => {
  const reader: PrintFor = { ...READER, unit: 'F', weights: 'us', zone: 'America/Denver' }
  const sheet = text(batchSheet(reportBatch(), reader))
  // 76.2 °C is 169.2 °F; 30 g are 1.06 oz; 9:31 in Lisbon is 3:31 in Denver (daylight saving since 8 March 2026).
  expect(sheet).toContain('lowest 169.2 °F')
  expect(sheet).toContain('1.06 oz')
  expect(sheet).toContain('03:31 topped up')
  const german = text(lotRecord(reportBatch(), { ...READER, language: 'de' }))
  expect(german).toContain('53 min bis 60 min gehalten')
  expect(german).toContain('76,2 °C')
  expect(text(batchSheet(reportBatch(), { ...READER, language: 'de' }))).toContain(
    '60 min nach der Uhr: 53 im Fenster, 7 darunter (tiefste 76,2 °C, 1,8 °C zu wenig), 0 unbekannt.',
  )
})

test('customer and buyer read what is sure and what the clock says, never the better one alone', () => {
  const record = text(lotRecord(reportBatch(), READER))
  expect(record).toContain('held 53 min to 60 min')
  expect(record).not.toContain('held 60 min')
})

test('a tag names lot, fibre, dyes and mordant and gives away no amounts', () => {
  const tag = text(customerTag(reportBatch(), READER, LINK))
  expect(tag).toContain('Lot M-12')
  expect(tag).toContain('Dyed with: cochineal, ground')
  expect(tag).toContain('Mordant: potassium alum')
  expect(tag).not.toMatch(/tartar|%|\d g\b/)
})

test('a tag says so when fastness was never tested', () => {
  const report = reportBatch()
  const silent: ReportBatch = { ...report, record: { ...report.record, fastness: [] } }
  expect(text(customerTag(silent, READER, LINK))).toContain('Fastness was not tested.')
})

test('a class page has recipe, box for the swatch, picture and safety; names may be left out', () => {
  const named = text(classPage(reportBatch(), READER, ['Ash', 'Bryn']))
  expect(named).toContain('By: Ash, Bryn')
  expect(named).toContain('potassium alum 12 %')
  expect(named).toContain('Staple the swatch here')
  expect(named).toContain('Never leave a lit burner alone')
  expect(text(classPage(reportBatch(), READER, []))).not.toContain('By:')
})

test('a class in German reads its cautions in German, the deferral to codes last', () => {
  const page = text(classPage(reportBatch(), { ...READER, language: 'de' }, []))
  expect(page).toContain('Nie eine Platte oder Flamme allein lassen')
  expect(page).not.toContain('Never leave')
  expect(page.indexOf('Örtliche Vorschriften')).toBeGreaterThan(page.indexOf('Beizenstaub'))
})

test('the picture of a trace has the window, the ceiling and its gap dashed, and tells itself in words', () => {
  const sheet = batchSheet(reportBatch(), READER)
  expect(sheet.match(/class="gap"/g)).toHaveLength(1)
  expect(sheet).toMatch(/fill="url\(#hatch-7\)"/)
  expect(sheet).toContain('stroke-dasharray="8 3 2 3"')
  expect(sheet).toContain('aria-label="Temperature of the stage Dye bath"')
})

test('a page fetches nothing and runs nothing', () => {
  const pages = [
    batchSheet(reportBatch(), READER),
    customerTag(reportBatch(), READER, LINK),
    classPage(reportBatch(), READER, []),
    lotRecord(reportBatch(), READER),
  ]
  for (const page of pages) {
    expect(page).not.toMatch(/<script|<img|<link|@import|url\((?!#)/)
    expect(page).toContain('content="default-src &#39;none&#39;')
  }
})

// Strings that have broken escaping elsewhere; common attack notation, no single source.
const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</title><svg onload=alert(1)>',
  '</style><script>alert(1)</script>',
  '&lt;script&gt;',
  '`${alert(1)}`',
  'javascript:alert(1)',
  '\u0000<b>',
  '<!--',
]

const tags = (page: string) => new Set(page.match(/<\/?[a-z!]+/gi))

// oxlint-disable oxc/no-map-spread -- a fixture made once
test.each(HOSTILE)('%j typed into any field comes out as text', (hostile) => {
  const report = reportBatch()
  const { batch, record } = report
  const dirty: ReportBatch = {
    ...report,
    potTitles: { heron: hostile },
    batch: {
      ...batch,
      title: hostile,
      planTitle: hostile,
      fibre: hostile,
      alarms: batch.alarms.map((alarm) => ({ ...alarm, text: hostile, acknowledgedBy: hostile })),
      events: batch.events.map((event) => ({ ...event, who: hostile })),
      plan: {
        ...batch.plan,
        stages: batch.plan.stages.map((stage) => ({
          ...stage,
          title: hostile,
          additives: [{ name: hostile, percentWof: 1 }],
          cautions: [hostile],
        })),
      },
    },
    record: {
      ...record,
      goods: { what: hostile, lot: hostile },
      result: { words: hostile },
      weighings: record.weighings.map((w) => ({
        ...w,
        body: { ...w.body, additive: hostile, lot: hostile },
      })),
    },
    corrections: report.corrections.map((c) => ({ ...c, who: hostile, from: hostile, to: hostile })),
  }
  const reader = { ...READER, studio: hostile }
  const clean = [batchSheet, lotRecord].map((make) => make(reportBatch(), READER))
  const pages = [batchSheet, lotRecord].map((make) => make(dirty, reader))
  pages.forEach((page, i) => {
    expect(
      [...tags(page)].filter((tag) => !tags(clean[i]!).has(tag) && tag !== '<dl' && tag !== '</dl'),
    ).toEqual([])
    // Inside quotes an attribute's value may say anything.
    expect(page.replaceAll(/"[^"]*"/g, '""')).not.toMatch(/<[^>]*\son\w+\s*=/)
  })
  expect(customerTag(dirty, reader, hostile)).not.toMatch(/<(script|img|svg onload|b>)/)
  expect(classPage(dirty, reader, [hostile])).not.toMatch(/<(script|img|svg onload|b>)/)
})

test('markup made by the template stays, text put into it is escaped, nothing is nothing', () => {
  expect(html`<p>${'a < b'} ${html`<i>${'&'}</i>`} ${null} ${[1, 'x']}</p>`.text).toBe(
    '<p>a &lt; b <i>&amp;</i>  1x</p>',
  )
  expect(escapeHtml(`"'\``)).toBe('&quot;&#39;&#96;')
})

test('a trace goes out as a trace file that can be read back, events before readings', () => {
  const out = traceCsv(
    [
      [DAY_MS, 71.25],
      [DAY_MS + 1000, -3.5],
    ],
    [
      { atMs: DAY_MS, event: { kind: 'stage', stageId: 'dye' } },
      { atMs: DAY_MS + 1000, event: { kind: 'dial', dial: 3.5 } },
    ],
  )
  // RFC 4180: CRLF between records.
  expect(out).toBe(
    [
      'time,temp_c,event',
      '2026-03-12T08:00:00.000Z,,stage:dye',
      '2026-03-12T08:00:00.000Z,71.25,',
      '2026-03-12T08:00:01.000Z,,dial:3.5',
      '2026-03-12T08:00:01.000Z,-3.5,',
      '',
    ].join('\r\n'),
  )
  const back = Papa.parse<Record<string, string>>(out, { header: true, skipEmptyLines: true }).data
  expect(
    back
      .map((row) => row['event'])
      .filter((w) => w !== '')
      .every((w) => parseEvent(w!).ok),
  ).toBe(true)
})

const batch = (title: string): BatchSummary => ({
  id: 1,
  title,
  planId: 1,
  planTitle: 'p',
  fibre: null,
  dryWeightG: 650.5,
  madeMs: DAY_MS,
  state: 'ended',
  potId: null,
  bathOf: null,
})

// Beginnings that spreadsheets run as formulas (OWASP, CSV injection), and two that slip past simple checks.
test.each(['=1+1', '+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1', '=1\n=2', ' =1', '＝1+1', '|cmd'])(
  'a title that begins like a formula, %j, is text in a spreadsheet',
  (title) => {
    const [, row] = Papa.parse<string[]>(batchesCsv([batch(title)])).data
    expect(row?.[1]).toBe(`'${title}`)
  },
)

test('commas, quotes and line breaks survive, numbers stay numbers', () => {
  const title = 'Red, "brick"\nsecond line'
  const out = batchesCsv([batch(title)])
  expect(Papa.parse<string[]>(out).data[1]?.slice(0, 2)).toEqual(['1', title])
  expect(out).toContain(',650.5,')
})

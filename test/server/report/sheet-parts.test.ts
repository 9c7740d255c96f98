import { expect, test } from 'vitest'
import type { CurrentRecord } from '#core/batch/current-record'
import { reportBatch } from '../../kit/report-batch.ts'
import { batchSheet } from '../../../server/report/batch-sheet.ts'
import { formatFor } from '../../../server/report/format.ts'
import { lotRecord } from '../../../server/report/lot-record.ts'
import { picturesOf } from '../../../server/report/pictures-of.ts'
import type { PrintFor } from '../../../server/report/print-for.ts'
import { qrPicture } from '../../../server/report/qr-picture.ts'
import type { ReportBatch } from '../../../server/report/report-batch.ts'

const READER: PrintFor = { unit: 'C', weights: 'metric', zone: 'UTC', language: 'en', studio: '' }
const REPORT = reportBatch()
const text = (page: string) =>
  page
    .replaceAll(/<style>.*?<\/style>/gs, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/\s+/g, ' ')

const withBatch = (more: Partial<ReportBatch['batch']>): ReportBatch => ({
  ...REPORT,
  batch: { ...REPORT.batch, ...more },
})

test('a sheet lists the lots of its bath with their weights, its own in bold; one that lay alone lists none', () => {
  const lots = [
    { id: 41, title: 'Marl, Ash', dryWeightG: 300 },
    { id: 42, title: 'Marl, Bryn', dryWeightG: null },
  ]
  const page = batchSheet(withBatch({ lots }), READER)
  expect(page).toContain('<strong>41 · Marl, Ash</strong>')
  expect(text(page)).toContain('41 · Marl, Ash 300 g 42 · Marl, Bryn – Whole bath 500 g')
  expect(text(batchSheet(REPORT, READER))).not.toContain('Whole bath')
})

test('what was noted stands in the reader’s words: the lid on and off, the dial with its number', () => {
  const [first] = REPORT.batch.events
  const noted = (lid: 'on' | 'off', id: number) => ({ ...first!, id, event: { kind: 'lid' as const, lid } })
  const page = text(batchSheet(withBatch({ events: [first!, noted('on', 8), noted('off', 9)] }), READER))
  expect(page).toMatch(/dial 8.*lid on.*lid off/)
})

test('notes stand on the sheet with their time, and no heading where there are none', () => {
  const line = { id: 90, atMs: Date.UTC(2026, 2, 12, 9, 5), notedMs: 0, who: null, replaces: null }
  const notes: CurrentRecord['notes'] = [{ ...line, kind: 'note', body: { text: 'smells of hay' } }]
  const page = text(batchSheet({ ...REPORT, record: { ...REPORT.record, notes } }, READER))
  expect(page).toContain('12 Mar 2026, 09:05 smells of hay')
  expect(text(batchSheet(REPORT, READER))).not.toContain('Notes')
})

const photo = (id: number, of: 'bath' | 'dry', caption?: string): CurrentRecord['photos'][number] => ({
  id,
  atMs: Date.UTC(2026, 2, 13, 8, id),
  notedMs: 0,
  who: null,
  replaces: null,
  kind: 'photo',
  body: { fileId: `f${id}`, of, ...(caption === undefined ? {} : { caption }) },
})

test('a photo that is at hand is shown, one that is not is told in words', () => {
  const record = { ...REPORT.record, photos: [photo(1, 'dry', 'by the window'), photo(2, 'bath')] }
  const page = batchSheet({ ...REPORT, record, pictures: { f1: 'data:image/png;base64,AAAA' } }, READER)
  expect(page).toContain('<img src="data:image/png;base64,AAAA" alt="13 Mar 2026, 08:01 dry: by the window"')
  expect(page.match(/<img/g)).toHaveLength(1)
  expect(text(page)).toContain('13 Mar 2026, 08:02 bath')
})

test('a sheet holds twelve photos at most, each once, and those of the dry goods before the others', async () => {
  const photos = [
    ...Array.from({ length: 14 }, (_, i) => photo(i, 'bath')),
    photo(20, 'dry'),
    photo(20, 'dry'),
  ]
  const asked: string[] = []
  const store = {
    photos: {
      get: async (id: string) => {
        asked.push(id)
        return { id, type: 'image/png' as const, bytes: Buffer.from(id), madeMs: 0 }
      },
    },
  }
  const found = await picturesOf(store as unknown as Parameters<typeof picturesOf>[0], {
    ...REPORT.record,
    photos,
  })
  expect(asked).toEqual(['f20', ...Array.from({ length: 11 }, (_, i) => `f${i}`)])
  // RFC 2397: the address holds the bytes themselves; "f20" is ZjIw in base64 (RFC 4648).
  expect(found['f20']).toBe('data:image/png;base64,ZjIw')
})

// ISO/IEC 18004: a finder pattern is 7 by 7 modules, dark but for a light ring; four light modules lie around the code.
test('a QR code has its finder patterns in three corners, four modules from the edge', () => {
  const page = qrPicture('https://dyehouse.invalid/lot/M-12').text
  const side = Number(/viewBox="0 0 (\d+) /.exec(page)![1])
  const dark = new Set([...page.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map((m) => `${m[1]} ${m[2]}`))
  const finder = ['#######', '#.....#', '#.###.#', '#.###.#', '#.###.#', '#.....#', '#######']
  const seenAt = (left: number, top: number) =>
    finder.map((_, y) =>
      Array.from({ length: 7 }, (_x, x) => (dark.has(`${left + x} ${top + y}`) ? '#' : '.')).join(''),
    )
  for (const [left, top] of [
    [4, 4],
    [side - 11, 4],
    [4, side - 11],
  ] as const)
    expect(seenAt(left, top)).toEqual(finder)
  const edges = [...dark].flatMap((at) => at.split(' ').map(Number))
  expect([Math.min(...edges), Math.max(...edges)]).toEqual([4, side - 5])
})

test('lengths, weights and windows read as a person writes them', () => {
  const metric = formatFor(READER)
  expect([metric.minutes(119.4), metric.minutes(120), metric.minutes(125)]).toEqual([
    '119 min',
    '2 h',
    '2 h 5 min',
  ])
  expect([metric.seconds(89), metric.seconds(90)]).toEqual(['89 s', '2 min'])
  expect([metric.weight(9.754), metric.weight(97.54), metric.weight(null)]).toEqual(['9.75 g', '97.5 g', '–'])
  expect([metric.temp(71), metric.temp(-0.04), metric.temp(null)]).toEqual(['71.0 °C', '0.0 °C', '–'])
  // By definition 28.349523125 g are an ounce and 3.785411784 L a gallon; 60 to 66 °C are 140 to 150.8 °F.
  const us = formatFor({ ...READER, unit: 'F', weights: 'us' })
  expect([us.weight(283.49523125), us.volume(7.570823568)]).toEqual(['10 oz', '2 gal'])
  expect([us.window([60, 66]), us.rate(1.5)]).toEqual(['140–150.8 °F', '2.7 °F/min'])
})

test('a buyer reads of a stage that runs that it does, and sees no picture of a single reading', () => {
  const [ran] = REPORT.stages
  const running = { ...ran!, run: { ...ran!.run, endedMs: null }, trace: ran!.trace.slice(0, 1) }
  const page = lotRecord({ ...REPORT, stages: [running] }, READER)
  expect(text(page)).toContain('still running')
  expect(page).not.toContain('<svg')
  expect(lotRecord(REPORT, READER)).toContain('<svg')
  expect(text(lotRecord(REPORT, READER))).not.toContain('still running')
})

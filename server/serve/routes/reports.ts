import { z } from 'zod'
import type { Person } from '#core/words/person'
import { idText } from '#core/wire/api-fields'
import { archiveQuery, classPageQuery, reportQuery } from '#core/wire/api-record'
import { batchFileSchema } from '#core/wire/batch-file'
import { batchJson } from '../../report/batch-json.ts'
import { batchSheet } from '../../report/batch-sheet.ts'
import { classPage } from '../../report/class-page.ts'
import { batchesCsv, traceCsv } from '../../report/csv.ts'
import { customerTag } from '../../report/customer-tag.ts'
import { findChromium } from '../../report/find-chromium.ts'
import { type Gathered, gatherReport } from '../../report/gather-report.ts'
import { lotRecord } from '../../report/lot-record.ts'
import { printPdf } from '../../report/print-pdf.ts'
import type { PrintFor } from '../../report/print-for.ts'
import type { ReportBatch } from '../../report/report-batch.ts'
import { wholeArchive } from '../../report/whole-archive.ts'
import { zipFiles } from '../../report/zip-files.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Page } from '../http/page-answer.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: idText })
const answer = z.unknown()
const PRINTED = ['text/html', 'application/pdf']
const TABLE = ['text/csv']

/** What goes out: sheets, tags, tables and files of a batch. */
export const reportRoutes = (studio: Studio): readonly Endpoint[] => [
  sheet(studio, 'sheet', 'The sheet of a batch, to print', batchSheet),
  sheet(studio, 'lot-record', 'A buyer’s lot record, to print', lotRecord),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/tag',
    summary: 'A customer’s tag with a QR code, to print',
    params,
    query: reportQuery,
    answer,
    answerTypes: PRINTED,
    handle: async ({ params: { id }, query, header }) => {
      const { report } = await gathered(studio, id)
      const link = `${originOf(header('host'))}/batches/${id}`
      return printed(customerTag(report, reader(studio, query), link), query.format, `tag-${id}`)
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/class-page',
    summary: 'One page of a class, to print; names come with the question and are kept nowhere',
    params,
    query: classPageQuery,
    answer,
    answerTypes: PRINTED,
    handle: async ({ params: { id }, query }) => {
      const person = reader(studio, query)
      const { report } = await gathered(studio, id, person)
      const pupils = query.pupils.split(',').map((name) => name.trim())
      const page = classPage(
        report,
        person,
        pupils.filter((name) => name !== ''),
      )
      return printed(page, query.format, `class-${id}`)
    },
  }),
  ...fileRoutes(studio),
]

/** Tables and files. */
const fileRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/batches/:id/trace.csv',
    summary: 'The traces of a batch with its events as a trace file that can be replayed',
    params,
    answer,
    answerTypes: TABLE,
    handle: async ({ params: { id } }) => {
      const { report } = await gathered(studio, id)
      const trace = report.stages.flatMap((stage) => stage.trace)
      return new Page(CSV, traceCsv(trace, report.batch.events), `batch-${id}-trace.csv`)
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/batch.json',
    summary: 'A whole batch as a file, by the published schema',
    params,
    answer: batchFileSchema,
    handle: async ({ params: { id } }) => {
      const { report, lines } = await gathered(studio, id)
      return batchJson(report, lines)
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/batches.csv',
    summary: 'The list of all batches as a table',
    answer,
    answerTypes: TABLE,
    handle: async () =>
      new Page(CSV, batchesCsv(await studio.store.batches.list({ limit: MOST_BATCHES })), 'batches.csv'),
  }),
  endpoint({
    method: 'get',
    path: '/api/archive.zip',
    summary:
      'The whole studio as pages, JSON, CSV and photos, to keep without this program; made while it is sent',
    query: archiveQuery,
    answer,
    answerTypes: ['application/zip'],
    handle: async ({ query, entry }) => {
      if (entry === 'key')
        throw new Problem(403, 'the whole studio is for people, not for bridges and devices')
      const files = wholeArchive(
        studio.store,
        reader(studio, { ...query, format: 'html' }),
        studio.clock.nowMs(),
      )
      return new Page('application/zip', zipFiles(files), 'studio.zip')
    },
  }),
]

const CSV = 'text/csv; charset=utf-8; header=present'
const MOST_BATCHES = 100_000

function sheet(
  studio: Studio,
  name: string,
  summary: string,
  make: (report: ReportBatch, reader: PrintFor) => string,
): Endpoint {
  return endpoint({
    method: 'get',
    path: `/api/batches/:id/${name}`,
    summary,
    params,
    query: reportQuery,
    answer,
    answerTypes: PRINTED,
    handle: async ({ params: { id }, query }) => {
      const person = reader(studio, query)
      const { report } = await gathered(studio, id, person)
      return printed(make(report, person), query.format, `${name}-${id}`)
    },
  })
}

async function gathered({ store, clock }: Studio, id: number, person?: Person): Promise<Gathered> {
  const found = await gatherReport(
    store,
    id,
    clock.nowMs(),
    person === undefined ? {} : { person, withPictures: true },
  )
  if (found === null) throw notFound(`batch ${id}`)
  return found
}

/** The reader as asked for; the rest as in the settings. */
function reader({ settings }: Studio, query: z.output<typeof reportQuery>): PrintFor {
  const { unit, zone, language, studio } = settings()
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone
  return {
    unit: query.unit ?? unit,
    weights: query.weights,
    zone: zoneOf(query.zone ?? zone ?? own),
    language: query.language ?? (language.startsWith('de') ? 'de' : 'en'),
    studio: studio ?? '',
  }
}

function zoneOf(zone: string): string {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone
  } catch {
    throw new Problem(400, `zone is "${zone}"; allowed is an IANA time zone such as Europe/Dublin`)
  }
}

const originOf = (host: string | undefined): string => (host === undefined ? '' : `http://${host}`)

async function printed(page: string, format: 'html' | 'pdf', name: string): Promise<Page> {
  if (format === 'html') return new Page('text/html; charset=utf-8', page)
  const made = await printPdf(page, findChromium())
  if (!made.ok) throw new Problem(503, made.why)
  return new Page('application/pdf', made.pdf, `${name}.pdf`)
}

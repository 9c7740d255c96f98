import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { encodePlan } from '#core/wire/plan-file'
import { batchJson } from '../report/batch-json.ts'
import { batchesCsv, traceCsv } from '../report/csv.ts'
import { gatherReport } from '../report/gather-report.ts'
import type { Store } from '../store/store.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { withRecord } from './record-copy.ts'
import { dataFolder } from './settings-file.ts'

const HELP = `Usage: npx --no holdfast export BATCH --out DIR [--data DIR]
       npx --no holdfast export --all --out DIR [--data DIR]

Writes a batch, by its number, so that it can be read without this program: batch.json with everything, plan.plan.json,
and trace.csv with temperatures and events, which "replay" takes as it stands. --all writes every batch into a folder
of its own, and batches.csv with one row each.

  --out DIR    an empty folder, or one to be made
  --all        every batch
  --data DIR   the data folder   (HOLDFAST_DATA, ./data)`

export const exportCommand: Command = {
  name: 'export',
  summary: 'writes a batch, or all, as JSON and CSV',
  help: HELP,
  options: { out: { type: 'string' }, all: { type: 'boolean' }, data: { type: 'string' } },
  positionals: ['BATCH'],
  run,
}

/** Batches read at a time. */
const PAGE = 200

async function run(flags: Flags, positionals: readonly string[]): Promise<number> {
  const wanted = wantedBatch(flags, positionals)
  const out = emptyFolder(flags['out'])
  const data = resolve(dataFolder(flags, process.env))
  await withRecord(data, (store) => (wanted === 'all' ? writeAll(store, out) : writeOne(store, wanted, out)))
  return 0
}

function wantedBatch(flags: Flags, [text, ...more]: readonly string[]): number | 'all' {
  if (flags['all'] === true && text === undefined) return 'all'
  if (text === undefined || more.length > 0 || flags['all'] === true)
    throw new UsageError('export takes the number of one batch, or --all')
  if (!/^[1-9]\d{0,14}$/.test(text))
    throw new UsageError(`BATCH is "${text}"; allowed is the number of a batch`)
  return Number(text)
}

function emptyFolder(flag: Flags[string]): string {
  if (typeof flag !== 'string' || flag === '')
    throw new UsageError('--out is missing; it takes a folder to write to')
  const out = resolve(flag)
  if (existsSync(out) && readdirSync(out).length > 0)
    throw new UsageError(`--out is "${flag}", which is not empty; allowed is an empty folder or a new one`)
  mkdirSync(out, { recursive: true })
  return out
}

async function writeOne(store: Store, id: number, out: string): Promise<void> {
  if (!(await writeBatch(store, id, out))) throw new UsageError(`there is no batch ${id}`)
  console.log(`batch ${id} written to ${out}`)
}

async function writeAll(store: Store, out: string): Promise<void> {
  const all = []
  for (let beforeId = Number.MAX_SAFE_INTEGER; ; beforeId = all.at(-1)!.id) {
    const page = await store.batches.list({ limit: PAGE, beforeId })
    all.push(...page)
    if (page.length < PAGE) break
  }
  for (const { id } of all) {
    const folder = join(out, `batch-${id}`)
    mkdirSync(folder)
    await writeBatch(store, id, folder)
  }
  writeFileSync(join(out, 'batches.csv'), batchesCsv(all.toReversed()))
  console.log(`${all.length} batches written to ${out}`)
}

async function writeBatch(store: Store, id: number, folder: string): Promise<boolean> {
  const gathered = await gatherReport(store, id, Date.now())
  if (gathered === null) return false
  const { report, lines } = gathered
  writeFileSync(join(folder, 'batch.json'), json(batchJson(report, lines)))
  writeFileSync(join(folder, 'plan.plan.json'), json(encodePlan(report.batch.plan)))
  const trace = report.stages.flatMap((stage) => stage.trace).sort((a, b) => a[0] - b[0])
  writeFileSync(join(folder, 'trace.csv'), traceCsv(trace, report.batch.events))
  return true
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`

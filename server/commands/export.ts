import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { type ArchiveFile, archiveOfBatch } from '../report/archive.ts'
import type { PrintFor } from '../report/print-for.ts'
import { wholeArchive } from '../report/whole-archive.ts'
import type { Store } from '../store/store.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { withRecord } from './record-copy.ts'
import { dataFolder, SettingsFile } from './settings-file.ts'
import { makeFolder } from '../store/make-folder.ts'

const HELP = `Usage: npx --no holdfast export BATCH --out DIR [--data DIR]
       npx --no holdfast export --all --out DIR [--data DIR]

Writes a batch, by its number, so that it can be read without this program: sheet.html for a browser, batch.json with
everything, plan.plan.json, trace.csv with temperatures and events, which "replay" takes as it stands, and its photos.
--all writes every batch into a folder of its own, index.html to begin with, and batches.csv with one row each.

  --out DIR    an empty folder, or one to be made
  --all        every batch
  --data DIR   the data folder   (HOLDFAST_DATA, ./data)`

export const exportCommand: Command = {
  name: 'export',
  summary: 'writes a batch, or all, as pages, JSON and CSV',
  help: HELP,
  options: { out: { type: 'string' }, all: { type: 'boolean' }, data: { type: 'string' } },
  positionals: ['BATCH'],
  run,
}

async function run(flags: Flags, positionals: readonly string[]): Promise<number> {
  const wanted = wantedBatch(flags, positionals)
  const out = emptyFolder(flags['out'])
  const data = resolve(dataFolder(flags, process.env))
  const reader = readerOf(flags)
  await withRecord(data, (store) =>
    wanted === 'all' ? writeAll(store, out, reader) : writeOne(store, wanted, out, reader),
  )
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
  makeFolder(out)
  return out
}

async function writeOne(store: Store, id: number, out: string, reader: PrintFor): Promise<void> {
  if (!(await writeBatch(store, id, out, reader))) throw new UsageError(`there is no batch ${id}`)
  console.log(`batch ${id} written to ${out}`)
}

async function writeAll(store: Store, out: string, reader: PrintFor): Promise<void> {
  const batches = new Set<string>()
  for await (const file of wholeArchive(store, reader, Date.now())) {
    if (file.name.endsWith('/batch.json')) batches.add(file.name)
    write(out, file)
  }
  console.log(`${batches.size} ${batches.size === 1 ? 'batch' : 'batches'} written to ${out}`)
}

async function writeBatch(store: Store, id: number, out: string, reader: PrintFor): Promise<boolean> {
  const files = await archiveOfBatch(store, id, reader, Date.now())
  for (const file of files ?? []) write(out, file)
  return files !== null
}

function write(out: string, { name, content }: ArchiveFile): void {
  mkdirSync(dirname(join(out, name)), { recursive: true })
  writeFileSync(join(out, name), content)
}

/** As the settings of the data folder say. */
function readerOf(flags: Flags): PrintFor {
  const { unit, zone, language, studio } = new SettingsFile(flags, process.env).settings
  return {
    unit,
    weights: 'metric',
    zone: zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
    language: language.startsWith('de') ? 'de' : 'en',
    studio: studio ?? '',
  }
}

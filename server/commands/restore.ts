import { copyFileSync, existsSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { openSqliteStore } from '../store/sqlite/open-sqlite-store.ts'
import { StoreRefusal } from '../store/store-refusal.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { holderOf } from './data-lock.ts'
import { fileAndData } from './file-and-data.ts'
import { sha256 } from './sha256.ts'
import { makeFolder } from '../store/make-folder.ts'

const HELP = `Usage: npx --no holdfast restore FILE [--data DIR]

Puts a backup in the place of the record, after looking through all of it: its checksum, its soundness, its version.
The server must not run. What stood there before is kept beside it as holdfast.db.replaced-1, -2 and so on.

  --data DIR   the data folder   (HOLDFAST_DATA, ./data)`

export const restore: Command = {
  name: 'restore',
  summary: 'puts a backup in the place of the record',
  help: HELP,
  options: { data: { type: 'string' } },
  positionals: ['FILE'],
  run,
}

async function run(flags: Flags, positionals: readonly string[]): Promise<number> {
  const { file, data } = fileAndData(flags, positionals, 'restore takes one FILE to read from')
  if (!existsSync(file)) throw new UsageError(`there is no file ${file}`)
  const holder = holderOf(data)
  if (holder !== null)
    throw new UsageError(
      `a server runs on ${data}${holder.url === undefined ? '' : ` at ${holder.url}`}; end it first`,
    )
  await checkSum(file)
  makeFolder(data)
  const beside = join(data, `.restoring-${process.pid}.db`)
  try {
    copyFileSync(file, beside)
    await checkSound(beside, file)
    const kept = replace(data, beside)
    console.log(
      `restored ${file} into ${data}${kept === null ? '' : `; what stood there is kept as ${kept}`}`,
    )
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(beside + end, { force: true })
  }
  return 0
}

async function checkSum(file: string): Promise<void> {
  const sumFile = `${file}.sha256`
  if (!existsSync(sumFile)) return
  const expected = readFileSync(sumFile, 'utf8').split(/\s/)[0]
  const found = await sha256(file)
  if (found !== expected)
    throw new UsageError(
      `${file} is not what the backup wrote: its SHA-256 is ${found}, in ${sumFile} stands ${expected}`,
    )
}

/** Opens it as the server would: a newer version is refused, an older one is brought up to date on the copy. */
async function checkSound(copy: string, file: string): Promise<void> {
  try {
    const store = await openSqliteStore(copy)
    const wrong = await store.check()
    await store.close()
    if (wrong.length > 0) throw new StoreRefusal(`${copy} is damaged (${wrong[0]}); take another backup`)
  } catch (error) {
    if (!(error instanceof StoreRefusal)) throw error
    throw new UsageError(error.message.replaceAll(copy, file))
  }
}

/** The path under which the record from before is kept, or `null` when there was none. */
function replace(data: string, copy: string): string | null {
  const place = join(data, 'holdfast.db')
  const kept = existsSync(place) ? freeName(`${place}.replaced`) : null
  if (kept !== null)
    for (const end of ['', '-wal', '-shm']) if (existsSync(place + end)) renameSync(place + end, kept + end)
  renameSync(copy, place)
  return kept
}

function freeName(stem: string): string {
  let n = 1
  while (existsSync(`${stem}-${n}`)) n += 1
  return `${stem}-${n}`
}

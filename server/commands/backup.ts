import { existsSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { type Command, type Flags, UsageError } from './command.ts'
import { fileAndData } from './file-and-data.ts'
import { copyRecord } from './record-copy.ts'
import { sha256 } from './sha256.ts'

const HELP = `Usage: npx --no holdfast backup FILE [--data DIR]

Copies the whole record into FILE, while the server runs or while it doesn't, and writes its SHA-256 beside it as
FILE.sha256 (checked by "restore", and by "sha256sum -c"). FILE must not exist yet.

  --data DIR   the data folder   (HOLDFAST_DATA, ./data)`

export const backup: Command = {
  name: 'backup',
  summary: 'copies the whole record into a file, also while the server runs',
  help: HELP,
  options: { data: { type: 'string' } },
  positionals: ['FILE'],
  run,
}

async function run(flags: Flags, positionals: readonly string[]): Promise<number> {
  const { file, data } = fileAndData(flags, positionals, 'backup takes one FILE to write to')
  if (existsSync(file)) throw new UsageError(`${file} exists already; name a file that doesn't`)
  const beside = `${file}.part`
  rmSync(beside, { force: true })
  await copyRecord(data, beside)
  const sum = await sha256(beside)
  writeFileSync(`${file}.sha256`, `${sum}  ${basename(file)}\n`)
  renameSync(beside, file)
  console.log(`${file}  sha256 ${sum}`)
  return 0
}

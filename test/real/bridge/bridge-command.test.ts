import { fork, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { buildProgram } from '../../kit/program.ts'
import { until } from '../../kit/until.ts'

const ENTRY = join(import.meta.dirname, '../../../server/commands/holdfast.js')

let folder = ''
beforeAll(buildProgram)
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-command-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

function run(...args: string[]): { readonly status: number | null; readonly error: string } {
  const { status, stderr } = spawnSync(process.execPath, [ENTRY, 'bridge', ...args], {
    encoding: 'utf8',
    timeout: 60_000,
  })
  return { status, error: stderr }
}

test.each([
  ['an address that is none', ['--server', 'barn'], /--server is "barn"; allowed is an address like http/],
  ['a name with blanks', ['--name', 'my barn'], /--name is "my barn"; allowed are letters/],
  ['a flag that is not known', ['--serv', 'x'], /--serv.*takes --server/],
])('%s ends with exit code 2 and one line', (_, args, line) => {
  const { status, error } = run('--data', folder, ...args)
  expect(status).toBe(2)
  expect(error).toMatch(line)
  expect(error.trim().split('\n')).toHaveLength(1)
})

test('a data folder that is a file ends with exit code 2', () => {
  writeFileSync(join(folder, 'file'), '')
  const { status, error } = run('--data', join(folder, 'file'))
  expect(status).toBe(2)
  expect(error).toMatch(/^holdfast: --data: the folder .*file.* can't be written to/)
})

test('an outbox of a newer program is left alone, with exit code 2', () => {
  spawnSync('mkdir', ['-p', join(folder, 'bridge')])
  const db = new Database(join(folder, 'bridge', 'outbox.sqlite'))
  db.pragma('user_version = 99')
  db.close()
  const { status, error } = run('--data', folder)
  expect(status).toBe(2)
  expect(error).toMatch(/outbox.sqlite is of a newer program \(99\)/)
})

test('a child whose server is gone and has left no note ends', async () => {
  const args = ['bridge', '--server', 'http://127.0.0.1:9', '--data', folder, '--child', String(process.pid)]
  const child = fork(ENTRY, args, { stdio: ['ignore', 'ignore', 'pipe', 'ipc'] })
  let said = ''
  child.stderr!.setEncoding('utf8').on('data', (text: string) => {
    said += text
  })
  await until(() => said.includes('does not answer'))
  child.disconnect()
  await until(() => child.exitCode !== null)
  expect(child.exitCode).toBe(0)
})

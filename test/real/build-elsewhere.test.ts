import { spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'

const root = join(import.meta.dirname, '../..')
const clone = mkdtempSync(join(tmpdir(), 'holdfast-clone-'))
for (const part of [
  'server',
  'bridge',
  'web',
  'package.json',
  'tsconfig.base.json',
  'tsconfig.json',
  'vite.config.ts',
])
  cpSync(join(root, part), join(clone, part), { recursive: true })
symlinkSync(join(root, 'node_modules'), join(clone, 'node_modules'))
afterAll(() => rmSync(clone, { recursive: true }))

const run = (...args: string[]) =>
  spawnSync('node', args, { cwd: tmpdir(), encoding: 'utf8', env: { ...process.env, HOLDFAST_LOG: 'info' } })

test('a fresh clone builds program and page whatever folder it is started from', () => {
  const { status, stderr } = run(join(clone, 'server/commands/build.js'))
  expect([status, stderr]).toEqual([0, ''])
  expect(existsSync(join(clone, 'dist/web/index.html'))).toBe(true)
})

test('what cannot be built is told in one line', () => {
  writeFileSync(join(clone, 'server/commands/main.ts'), 'this is no program')
  const { status, stderr } = run(join(clone, 'server/commands/holdfast.js'), 'probes')
  expect(status).toBe(1)
  expect(stderr.split('\n').filter((line) => line.startsWith('holdfast: '))).toHaveLength(1)
  expect(stderr).not.toMatch(/^\s+at /m)
})

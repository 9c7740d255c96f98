import { chmod, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { systemdNotify } from '../../server/tell/systemd-notify.ts'

let folder: string
const path = process.env['PATH']
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'notify-'))
})
afterEach(async () => {
  process.env['PATH'] = path
  await rm(folder, { recursive: true })
})

test("the word goes out by the system's own program", async () => {
  const file = join(folder, 'systemd-notify')
  await writeFile(file, '#!/bin/sh\necho "$@" >> "$(dirname "$0")/log"\n')
  await chmod(file, 0o755)
  process.env['PATH'] = `${folder}${delimiter}${path}`
  const troubles: string[] = []
  systemdNotify((sentence) => troubles.push(sentence))(['WATCHDOG=1'])
  await expect.poll(() => readFile(join(folder, 'log'), 'utf8').catch(() => '')).toBe('WATCHDOG=1\n')
  expect(troubles).toEqual([])
})

test('a system without it is told of once and nothing fails', async () => {
  process.env['PATH'] = folder
  const troubles: string[] = []
  const notify = systemdNotify((sentence) => troubles.push(sentence))
  notify(['READY=1'])
  notify(['WATCHDOG=1'])
  await expect.poll(() => troubles.length).toBe(1)
  await new Promise((resolve) => setTimeout(resolve, 100))
  expect(troubles).toHaveLength(1)
})

import { chmod, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { HandClock } from '../kit/hand-clock.ts'
import { KeepAwake } from '../../server/tell/keep-awake.ts'
import { linuxInhibitor } from '../../server/tell/linux-inhibitor.ts'

let folder: string
const path = process.env['PATH']
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'awake-'))
})
afterEach(async () => {
  process.env['PATH'] = path
  await rm(folder, { recursive: true })
})

/** Puts a script in the place of the system's tool. */
async function standIn(script: string) {
  const file = join(folder, 'systemd-inhibit')
  await writeFile(file, `#!/bin/sh\n${script}\n`)
  await chmod(file, 0o755)
  process.env['PATH'] = `${folder}${delimiter}${path}`
}

const log = () => readFile(join(folder, 'log'), 'utf8').catch(() => '')

test('the child holds on until the burner is off, and ends then', async () => {
  await standIn('log="$(dirname "$0")/log"; echo "$@" > "$log"; cat; echo over >> "$log"')
  const awake = new KeepAwake(new HandClock(), linuxInhibitor)
  awake.want(true)
  await expect.poll(log).toContain('--what=sleep')
  expect(awake.state).toEqual({ kind: 'kept-awake' })
  awake.want(false)
  await expect.poll(log).toContain('over')
})

test('what the system says when it refuses reaches the dyer', async () => {
  await standIn('echo "Failed to inhibit: Access denied" >&2; exit 1')
  const awake = new KeepAwake(new HandClock(), linuxInhibitor)
  awake.want(true)
  await expect
    .poll(() => awake.state)
    .toEqual({
      kind: 'may-sleep',
      why: "this computer can't be kept from sleeping: Failed to inhibit: Access denied",
    })
  awake.stop()
})

test('a system without the tool is no failure', async () => {
  process.env['PATH'] = folder
  const awake = new KeepAwake(new HandClock(), linuxInhibitor)
  awake.want(true)
  await expect.poll(() => JSON.stringify(awake.state)).toContain('systemd-inhibit is not installed')
  awake.stop()
})

test('a system that never answers does not keep this program running', async () => {
  await standIn('echo $$ > "$(dirname "$0")/log"; exec sleep 60')
  const awake = new KeepAwake(new HandClock(), linuxInhibitor)
  awake.want(true)
  await expect.poll(log).toMatch(/^\d+\n/)
  expect(process.getActiveResourcesInfo()).toContain('ProcessWrap')
  awake.stop()
  await expect.poll(() => process.getActiveResourcesInfo()).not.toContain('ProcessWrap')
  process.kill(Number(await log()))
})

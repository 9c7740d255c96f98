import { execFileSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { FakeServer } from '../../kit/fake-server.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

/** A bridge with one probe, up and asked for what it should read. */
async function bridgeWith(folder: string, probe: ReturnType<typeof settingsOf>): Promise<Program> {
  const server = await FakeServer.open(join(folder, 'server.sqlite'))
  server.settings = { ...server.settings, probes: [probe] }
  const bridge = new Program(['bridge', '--server', server.url.href, '--data', join(folder, 'data')])
  onTestFinished(async () => {
    await bridge.stop('SIGKILL')
    await server.close()
  })
  await bridge.start(/heron: .*is read every/)
  return bridge
}

/** A driver's file that never answers: reading it takes a thread of the program and gives it back to nobody. */
function deafSensor(folder: string): string {
  const device = join(folder, '28-0000000000aa')
  mkdirSync(device)
  execFileSync('mkfifo', [join(device, 'w1_slave')])
  return folder
}

test('the end does not wait for a sensor whose driver never answers', async () => {
  const folder = tempFolder()
  const bridge = await bridgeWith(folder, settingsOf('one-wire-files', { folder: deafSensor(folder) }))
  await bridge.stop()
  expect(bridge.isUp).toBe(false)
  expect(bridge.output).toMatch(/heron: its driver does not let go of/)
})

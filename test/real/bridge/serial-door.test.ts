import { spawnSync } from 'node:child_process'
import { chmodSync, mkdtempSync, realpathSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { realSerialDoor } from '../../../bridge/probe/real-serial-door.ts'
import { portTrouble } from '../../../bridge/probe/serial-door.ts'
import { cable, listen } from '../../kit/pty.ts'
import { serialDoorContract } from '../../kit/serial-door-contract.ts'

describe('the real door keeps the contract of serial ports, on a pseudo-terminal', () => {
  serialDoorContract(async () => {
    const folder = mkdtempSync(join(tmpdir(), 'holdfast-door-'))
    const line = await cable(folder)
    let heard = ''
    const stop = await listen(line.probe, (bytes) => {
      heard += bytes.toString('latin1')
    })
    return {
      door: realSerialDoor,
      path: line.port,
      send: line.send,
      heard: () => heard,
      pull: line.pull,
      plug: line.plug,
      end: async () => {
        await line.pull()
        await stop()
        rmSync(folder, { recursive: true })
      },
    }
  })
})

test('listing the ports of this computer never fails', async () => {
  expect(Array.isArray(await realSerialDoor.list())).toBe(true)
})

test('a user without the right to a port is told of the group', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-door-'))
  const line = await cable(folder)
  const port = realpathSync(line.port)
  chmodSync(port, 0o600)
  const script = `
    const { SerialPort } = require('serialport')
    const port = new SerialPort({ path: process.argv[1], baudRate: 9600, autoOpen: false })
    port.open((error) => console.log(error ? error.message : 'open'))`
  // Root passes every check, so the port is opened by a user who owns nothing.
  const asNobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {}
  if (process.getuid?.() !== 0) chmodSync(port, 0o000)
  const { stdout } = spawnSync(process.execPath, ['-e', script, port], {
    cwd: join(import.meta.dirname, '../../..'),
    encoding: 'utf8',
    timeout: 60_000,
    ...asNobody,
  })
  await line.pull()
  rmSync(folder, { recursive: true })
  expect(portTrouble(port, stdout.trim())).toMatch(/may not be opened by this user; .*usermod -aG dialout/)
})

import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { decodeProbes } from '#core/wire/probe-settings'
import { Bridge } from '../../../bridge/main.ts'
import { FakeServer } from '../../kit/fake-server.ts'
import { type Cable, cable } from '../../kit/pty.ts'
import { until } from '../../kit/until.ts'

let folder = ''
let server: FakeServer
let bridge: Bridge
let usb: Cable

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-bridge-'))
  server = await FakeServer.open(join(folder, 'server.sqlite'))
  usb = await cable(folder)
})

afterEach(async () => {
  await bridge.stop()
  await usb.pull()
  await server.close()
  rmSync(folder, { recursive: true })
})

function start(probe: object): void {
  const decoded = decodeProbes([{ name: 'heron', kind: 'serial-lines', path: usb.port, ...probe }])
  if (!decoded.ok) throw new Error(decoded.why)
  server.settings = { probes: decoded.probes, find: false, broker: null }
  bridge = new Bridge({
    server: server.url,
    data: join(folder, 'bridge'),
    name: 'studio',
    key: null,
    isOwn: true,
    say: () => {},
    bell: () => {},
  })
}

const values = () => server.rows().map((r) => r.raw_c)
const isOpen = () => server.state?.probes[0]?.sentence.includes('waiting for the first reading') ?? false

test('a line on the terminal is in the server’s file', async () => {
  start({ line: 'T={tempC}' })
  await until(isOpen)
  usb.send('T=71.2\r\nT=7')
  usb.send('1.3\r\nnoise\r\nT=8')
  await until(() => server.count() === 2)
  expect(values()).toEqual([71.2, 71.3])
})

test('a pulled cable is told, heals by itself, and half a line is lost with it', async () => {
  start({ line: 'T={tempC}' })
  await until(isOpen)
  usb.send('T=71.2\nT=8')
  await until(() => server.count() === 1)
  await usb.pull()
  await until(() => server.state?.probes[0]?.state === 'trouble')
  expect(server.state?.probes[0]?.sentence).toMatch(/is the (plug still in|probe plugged in)/)
  await usb.plug()
  await until(() => server.state?.probes[0]?.state !== 'trouble')
  usb.send('T=71.4\n')
  await until(() => server.count() === 2)
  expect(values()).toEqual([71.2, 71.4])
})

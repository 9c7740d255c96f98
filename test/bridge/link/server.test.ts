import { EventEmitter, once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, onTestFinished, test } from 'vitest'
import type { BridgeSettings } from '#core/wire/bridge-link'
import { Outbox } from '../../../bridge/link/outbox.ts'
import type { OutboxRow } from '../../../bridge/link/outbox-rows.ts'
import { sendReadings } from '../../../bridge/link/send-readings.ts'
import { ServerWay } from '../../../bridge/link/server-way.ts'
import { SettingsPoll } from '../../../bridge/link/settings-poll.ts'
import { FakeServer } from '../../kit/fake-server.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { settingsOf } from '../../kit/settings-of.ts'

let folder = ''
let server: FakeServer
let way: ServerWay
let clock: HandClock

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-link-'))
  server = await FakeServer.open(join(folder, 'server.sqlite'))
  way = new ServerWay(server.url, null)
  clock = new HandClock(Date.now())
})

afterEach(async () => {
  way.close()
  await server.close()
  rmSync(folder, { recursive: true })
})

/** A server that answers as it is told to, on a free port. */
async function answering(answer: (response: ServerResponse) => void): Promise<URL> {
  const bad = createServer((_request, response) => answer(response))
  onTestFinished(() => {
    bad.closeAllConnections()
    bad.close()
  })
  await new Promise<void>((resolve) => bad.listen(0, '127.0.0.1', resolve))
  return new URL(`http://127.0.0.1:${(bad.address() as AddressInfo).port}`)
}

const QUESTION = { method: 'GET', path: '/' } as const

test('an answer that breaks off in its middle is no answer', async () => {
  const url = await answering((response) => {
    response.writeHead(200, { 'content-length': 100 }).write('{"stored":')
    setImmediate(() => response.destroy())
  })
  const asking = new ServerWay(url, null)
  expect(await asking.ask(QUESTION)).toMatchObject({
    ok: false,
    sentence: expect.stringContaining('does not answer'),
  })
  asking.close()
})

test('an answer that comes drop by drop is waited for so long and no longer', async () => {
  const url = await answering((response) => {
    response.writeHead(200)
    const drops = setInterval(() => response.write('.'), 5)
    response.once('close', () => clearInterval(drops))
  })
  const asking = new ServerWay(url, null, 60)
  expect(await asking.ask(QUESTION)).toMatchObject({
    ok: false,
    sentence: expect.stringContaining('no whole answer within 0.06 s'),
  })
  asking.close()
})

test('the end of the way is the end of what is asked on it', async () => {
  const asks = new EventEmitter()
  const reached = once(asks, 'reached')
  const asking = new ServerWay(await answering(() => asks.emit('reached')), null)
  const asked = asking.ask(QUESTION)
  await reached
  asking.close()
  expect(await asked).toMatchObject({ ok: false })
})

const outboxOf = (boot: string) =>
  new Outbox({ file: join(folder, 'outbox.sqlite'), clock, boot, onReady: () => {}, onTrouble: () => {} })

function poll(outbox: Outbox, to = way) {
  const heard: BridgeSettings[] = []
  const said: string[] = []
  let contacts = 0
  const settings = new SettingsPoll({
    way: to,
    outbox,
    clock,
    bridge: 'studio',
    isOwn: true,
    onContact: () => contacts++,
    onSettings: (s) => heard.push(s),
    onSay: (sentence) => said.push(sentence),
  })
  return { settings, heard, said, contacts: () => contacts }
}

const WREN = settingsOf('mqtt', { name: 'wren', url: 'mqtt://127.0.0.1', topic: 'a/b' })

test('settings come once for each change, and the last good ones stand without a server', async () => {
  server.settings = { ...server.settings, probes: [WREN] }
  const outbox = outboxOf('b1')
  const first = poll(outbox)
  await first.settings.poll()
  await first.settings.poll()
  expect(first.heard.map((s) => s.probes.map((p) => p.name))).toEqual([['wren']])
  expect(first.contacts()).toBe(1)
  server.refuseWith = 503
  await first.settings.poll()
  expect(first.said.at(-1)).toContain('status 503')
  first.settings.close()
  outbox.close()

  const again = outboxOf('b2')
  const alone = poll(again, new ServerWay(new URL('http://127.0.0.1:9'), null))
  expect(alone.heard.map((s) => s.probes.map((p) => p.name))).toEqual([['wren']])
  await alone.settings.poll()
  expect(alone.said.at(-1)).toMatch(/does not answer .*is it running/)
  expect(alone.contacts()).toBe(0)
  alone.settings.close()
  again.close()
})

test('a probe that this bridge can not read is left out and said, the others are read', async () => {
  server.settings = { ...server.settings, probes: [WREN, { ...WREN, name: 'x', kind: 'telepathy' } as never] }
  const outbox = outboxOf('b1')
  const { settings, heard, said } = poll(outbox)
  await settings.poll()
  expect(heard[0]?.probes.map((p) => p.name)).toEqual(['wren'])
  expect(said.join()).toMatch(/a probe is left out: .*telepathy/)
  settings.close()
  outbox.close()
})

test('a computer whose clock is hours off goes by the server’s, for this run', async () => {
  server.clockOffMs = 7_200_000
  const outbox = outboxOf('b1')
  const { settings, said } = poll(outbox)
  await settings.poll()
  expect(Math.abs(outbox.notes.offsetOf('b1') - 7_200_000)).toBeLessThan(2000)
  expect(outbox.notes.offsetOf('b0')).toBe(0)
  expect(said.at(-1)).toMatch(/clock is 7\d\d\d s off the server's/)
  settings.close()
  outbox.close()
})

const row = (seq: number, rawC: number): OutboxRow => ({
  id: seq + 1,
  sample: { kind: 'temp', probe: 'wren', atMs: clock.nowMs() + seq, rawC },
  serial: { boot: 'b1', seq },
})

test('a batch is taken once, however often it is sent', async () => {
  const rows = [row(0, 70), row(1, 71)]
  for (let i = 0; i < 3; i++) {
    expect(await sendReadings(way, 'studio', rows, () => 0)).toEqual({ kind: 'taken', refused: new Map() })
  }
  expect(server.rows().map((r) => r.raw_c)).toEqual([70, 71])
})

test('the offset of a run sets the times of its rows right', async () => {
  await sendReadings(way, 'studio', [row(0, 70)], (boot) => (boot === 'b1' ? 5000 : 0))
  expect(server.rows()[0]!.at_ms).toBe(clock.nowMs() + 5000)
})

test.each([
  [503, { kind: 'later', sentence: /can't take readings now/ }],
  [500, { kind: 'later', sentence: /they wait in the outbox/ }],
  [401, { kind: 'later', sentence: /does not accept this bridge .*--key/ }],
  [400, { kind: 'unreadable', why: /status 400/ }],
  [413, { kind: 'unreadable', why: /status 413/ }],
])('status %d is understood', async (status, result) => {
  server.refuseReadingsWith = status
  const answered = await sendReadings(way, 'studio', [row(0, 70)], () => 0)
  expect(answered.kind).toBe(result.kind)
  expect(JSON.stringify(answered)).toMatch(Object.values(result)[1] as RegExp)
})

test('a good status without a receipt is no receipt', async () => {
  const http = createServer((_, response) => response.end('<html>welcome</html>'))
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve))
  const { port } = http.address() as AddressInfo
  const stranger = new ServerWay(new URL(`http://127.0.0.1:${port}`), null)
  expect(await sendReadings(stranger, 'studio', [row(0, 70)], () => 0)).toMatchObject({
    kind: 'later',
    sentence: expect.stringContaining('no receipt'),
  })
  stranger.close()
  await new Promise((resolve) => http.close(resolve))
})

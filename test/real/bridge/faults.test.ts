import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { decodeProbes } from '#core/wire/probe-settings'
import { HandOver } from '../../../bridge/link/hand-over.ts'
import { Outbox } from '../../../bridge/link/outbox.ts'
import { Bridge } from '../../../bridge/main.ts'
import { FakeServer } from '../../kit/fake-server.ts'
import { settle } from '../../kit/fake-world.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { type Cable, cable } from '../../kit/pty.ts'
import { until } from '../../kit/until.ts'

let folder = ''
let server: FakeServer
let usb: Cable

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-faults-'))
  server = await FakeServer.open(join(folder, 'server.sqlite'))
  usb = await cable(folder)
  const decoded = decodeProbes([{ name: 'heron', kind: 'serial-lines', path: usb.port, line: 'T={tempC}' }])
  if (decoded.ok) server.settings = { ...server.settings, probes: decoded.probes }
})

afterEach(async () => {
  await usb.pull()
  await server.close()
  rmSync(folder, { recursive: true })
})

const values = () => server.rows().map((r) => r.raw_c)
const report = () => server.state?.probes[0]
const isOpen = () => report() !== undefined && report()!.state !== 'trouble'
const value = (n: number) => 20 + n / 1000

test('a cable pulled 50 times loses nothing that had arrived and never makes a number up', async () => {
  const bridge = new Bridge({
    server: server.url,
    data: join(folder, 'bridge'),
    name: 'studio',
    key: null,
    isOwn: true,
    say: () => {},
    bell: () => {},
  })
  await until(isOpen)
  const expected: number[] = []
  for (let i = 0; i < 50; i++) {
    usb.send(`T=${value(i).toFixed(3)}\nT=9`)
    expected.push(value(i))
    await until(() => server.count() === expected.length)
    await usb.pull()
    await until(() => report()?.state === 'trouble')
    await usb.plug()
    await until(isOpen)
  }
  expect(values()).toEqual(expected)
  await bridge.stop()
})

test('a full disk: readings go on to the server from memory, it is said, and all are there when it is freed', async () => {
  buildProgram()
  const bridge = new Program(
    ['bridge', '--server', server.url.href, '--data', folder, '--name', 'far'],
    {},
    // Enough for the empty outbox and some 40 commits.
    300,
  )
  await bridge.start(/bridge running/)
  await until(isOpen)
  server.refuseReadingsWith = 503
  let n = 0
  const feed = async (count: number) => {
    for (let i = 0; i < count; i++) {
      usb.send(`T=${value(n++).toFixed(3)}\n`)
      await new Promise((resolve) => setTimeout(resolve, 8))
    }
  }
  for (let i = 0; i < 100 && server.state?.outbox.trouble == null; i++) await feed(20)
  expect(server.state?.outbox.trouble).toMatch(/can't be written .*is the disk full.*free some space/)
  expect(bridge.output).toMatch(/can't be written/)
  await feed(50)
  server.refuseReadingsWith = null
  await until(() => server.count() === n, { withinMs: 20_000 })
  await feed(50)
  await until(() => server.count() === n)
  bridge.liftLimit()
  await until(() => server.state?.outbox.trouble === null)
  await feed(20)
  await until(() => server.count() === n && server.state?.outbox.waiting === 0)
  expect(values()).toEqual(Array.from({ length: n }, (_, i) => value(i)))
  await bridge.stop()
})

test('a server away for eight hours gets every reading, once and in order, and the newest at once', async () => {
  const clock = new HandClock()
  let isAway = true
  const stored = new Map<string, number>()
  const firstAfter: number[] = []
  const outbox = new Outbox({
    file: join(folder, 'outbox.sqlite'),
    clock,
    boot: 'b1',
    onReady: () => handOver.wake(),
    onTrouble: () => {},
  })
  const handOver: HandOver = new HandOver({
    outbox,
    clock,
    random: () => 0.5,
    send: (rows) => {
      if (isAway) return Promise.resolve({ kind: 'later', sentence: 'away', afterMs: null })
      for (const r of rows) {
        if (stored.size === 0) firstAfter.push(r.sample.atMs)
        stored.set(`${r.sample.probe} ${r.serial.seq}`, r.sample.atMs)
      }
      return Promise.resolve({ kind: 'taken', refused: new Map() })
    },
    onTrouble: () => {},
  })
  const probes = ['wren', 'heron', 'otter']
  const startMs = clock.nowMs()
  for (let s = 0; s < 8 * 3600; s += 20) {
    for (const probe of probes)
      outbox.put({ kind: 'temp', probe, atMs: clock.nowMs(), rawC: 40 + s / 10_000 })
    clock.advance(20_000)
    await settle()
  }
  isAway = false
  const returnedMs = clock.nowMs()
  for (let i = 0; i < 30; i++) {
    for (const probe of probes) outbox.put({ kind: 'temp', probe, atMs: clock.nowMs(), rawC: 50 })
    clock.advance(1000)
    await settle()
  }
  const put = 3 * (8 * 180 + 30)
  expect(outbox.counts().waiting).toBe(0)
  expect(stored.size).toBe(put)
  expect(Math.min(...firstAfter)).toBeGreaterThan(returnedMs - 30_000)
  for (const probe of probes) {
    const times = Array.from({ length: put / 3 }, (_, seq) => stored.get(`${probe} ${seq}`)!)
    expect(times).toEqual(times.toSorted((a, b) => a - b))
    expect(times[0]).toBe(startMs)
  }
  outbox.close()
})

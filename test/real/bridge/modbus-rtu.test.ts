import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { RealClock } from '../../../bridge/link/real-clock.ts'
import { openModbusRtu } from '../../../bridge/probe/modbus-rtu.ts'
import { realSerialDoor } from '../../../bridge/probe/real-serial-door.ts'
import type { Source } from '../../../bridge/probe/source.ts'
import { Listener } from '../../kit/fake-world.ts'
import { type Cable, cable, listen } from '../../kit/pty.ts'
import { rtuAnswer, rtuCrc, type RtuSlave } from '../../kit/rtu-slave.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { until } from '../../kit/until.ts'

const hex = (text: string) => Uint8Array.from(text.split(' '), (b) => Number.parseInt(b, 16))

// Serial line guide: 02 07 → 41 12. Application Protocol V1.1b3 §6.3, registers 108–110, framed:
// 01 03 00 6B 00 03 74 17 → 01 03 06 02 2B 00 00 00 64 05 7A.
test('the slave of these tests follows the specification’s examples', () => {
  expect(rtuCrc(hex('02 07'))).toEqual(hex('41 12'))
  const slave: RtuSlave = {
    station: 1,
    holding: new Map([
      [0x6b, 0x022b],
      [0x6c, 0],
      [0x6d, 0x64],
    ]),
    input: new Map([[8, 0x0a]]),
  }
  expect(rtuAnswer([slave], hex('01 03 00 6B 00 03 74 17'))).toEqual(hex('01 03 06 02 2B 00 00 00 64 05 7A'))
  expect(rtuAnswer([slave], hex('01 04 00 08 00 01 B0 08'))).toEqual(hex('01 04 02 00 0A 39 37'))
  expect(rtuAnswer([slave], hex('01 03 00 6B 00 03 74 18'))).toBeNull()
})

let folder = ''
let line: Cable
let slaves: RtuSlave[]
let source: Source | null = null
let stopListening: () => Promise<void>
/** What the line does to an answer before the bridge gets it. */
let spoil: (answer: Uint8Array) => Uint8Array | null

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-rtu-'))
  line = await cable(folder)
  slaves = [{ station: 1, holding: new Map(), input: new Map() }]
  spoil = (answer) => answer
  await answering()
})

afterEach(async () => {
  await source?.close()
  source = null
  await line.pull()
  await stopListening()
  rmSync(folder, { recursive: true })
})

async function answering(): Promise<void> {
  let got = Buffer.alloc(0)
  stopListening = await listen(line.probe, (bytes) => {
    got = Buffer.concat([got, bytes])
    while (got.length >= 8) {
      const answer = rtuAnswer(slaves, got.subarray(0, 8))
      got = got.subarray(8)
      const sent = answer === null ? null : spoil(answer)
      if (sent !== null) line.send(sent)
    }
  })
}

function start(registers: object[]): Listener {
  const sink = new Listener()
  const settings = settingsOf('modbus-rtu', { path: line.port, registers, everyS: 0.1, timeoutMs: 100 })
  source = openModbusRtu(settings, sink, {
    clock: new RealClock(),
    random: Math.random,
    serial: realSerialDoor,
    machineId: 'a-test-machine',
    brokerLogin: () => null,
  })
  return sink
}

test('registers of every type and of two stations become readings', async () => {
  slaves = [
    { station: 1, holding: new Map([[0, 712]]), input: new Map([[100, 0xffff - 99]]) },
    {
      station: 7,
      holding: new Map([
        [4, 0x428e],
        [5, 0x8000],
        [6, 0x8000],
        [7, 0x428e],
      ]),
      input: new Map(),
    },
  ]
  const sink = start([
    { name: 'wren', address: 0, scale: 0.1 },
    { name: 'frost', function: 4, address: 100, scale: 0.1 },
    { name: 'heron', station: 7, address: 4, type: 'float32' },
    { name: 'otter', station: 7, address: 6, type: 'float32', wordOrder: 'little', unit: 'F' },
  ])
  await until(() => sink.samples.length >= 4)
  expect(sink.heard.slice(0, 4)).toEqual(['wren 71.2', 'frost -10', 'heron 71.25', 'otter 21.806'])
})

test('milliamperes in a register follow NE 43', async () => {
  slaves[0]!.input.set(0, 12_000)
  slaves[0]!.input.set(1, 3500)
  const signal = { kind: 'current-loop', at4mAC: 0, at20mAC: 100 }
  const sink = start([
    { name: 'heron', function: 4, address: 0, scale: 0.001, signal },
    { name: 'wren', function: 4, address: 1, scale: 0.001, signal },
  ])
  await until(() => sink.samples.length >= 2)
  expect(sink.heard.slice(0, 2)).toEqual(['heron 50', 'wren error-code'])
})

test('a silent station, a wrong register and a spoilt answer are told and stop no other', async () => {
  slaves[0]!.holding.set(0, 70)
  const sink = start([
    { name: 'heron', address: 0 },
    { name: 'wren', station: 9, address: 0 },
    { name: 'otter', address: 55 },
  ])
  await until(() => sink.samples.length >= 2)
  expect(new Set(sink.heard)).toEqual(new Set(['heron 70']))
  expect(sink.refusals.some((r) => /station 9, register 0: no answer in time/.test(r))).toBe(true)
  expect(sink.refusals.some((r) => /station 1, register 55: .*[Ii]llegal data address/.test(r))).toBe(true)
  const before = sink.samples.length
  spoil = (answer) => answer.map((b, i) => (i === 4 ? b ^ 1 : b))
  await until(() => sink.refusals.length > 10)
  expect(sink.samples.length - before).toBeLessThanOrEqual(1)
})

test('a line that was pulled and plugged in again is read on', async () => {
  slaves[0]!.holding.set(0, 70)
  const sink = start([{ name: 'heron', address: 0 }])
  await until(() => sink.samples.length >= 2)
  await line.pull()
  await until(() => sink.ways.at(-1)!.startsWith('trouble'))
  await stopListening()
  const before = sink.samples.length
  await line.plug()
  await answering()
  await until(() => sink.samples.length >= before + 2)
  expect(sink.ways.at(-1)).toMatch(/^open/)
})

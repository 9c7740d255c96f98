import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openOneWireFiles } from '../../../bridge/probe/one-wire-files.ts'
import { fakeWorld, Listener } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { until } from '../../kit/until.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-w1-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

/** The text of the kernel's driver: nine bytes twice, its word on the checksum, and thousandths of a degree. */
function device(number: string, bytes: string, says = 'YES'): void {
  mkdirSync(join(folder, number), { recursive: true })
  const t = 'does not matter: the bytes are read'
  writeFileSync(
    join(folder, number, 'w1_slave'),
    `${bytes} : crc=${bytes.slice(-2)} ${says}\n${bytes} t=${t}\n`,
  )
}

async function heard(more: object = {}): Promise<Listener> {
  const sink = new Listener()
  const source = openOneWireFiles(settingsOf('one-wire-files', { folder, ...more }), sink, fakeWorld())
  await until(() => sink.samples.length > 0 || sink.ways.some((w) => w.startsWith('trouble')))
  await source.close()
  return sink
}

// 91 01 … 70: +25.0625 °C by the chip's data sheet, checksum by its application note 27.
test('the only device is the source’s probe', async () => {
  device('28-0000055f1a2b', '91 01 4b 46 7f ff 0c 10 70')
  expect((await heard()).heard).toEqual(['heron 25.063'])
})

test('several devices are probes by their numbers, or by the names in the settings', async () => {
  device('28-0000055f1a2b', '91 01 4b 46 7f ff 0c 10 70')
  device('28-0000055f1a2c', 'a2 00 4b 46 7f ff 0c 10 74')
  mkdirSync(join(folder, 'w1_bus_master1'))
  const sink = await heard()
  expect(sink.heard[0]).toBe('28-0000055f1a2b 25.063')
  const named = await heard({ devices: { '28-0000055f1a2c': 'wren', '28-00000000dead': 'otter' } })
  expect(named.heard).toEqual(['wren 10.125', 'otter not-connected'])
})

test.each([
  ['00 00 00 00 00 00 00 00 00', 'heron not-connected'],
  ['ff ff ff ff ff ff ff ff ff', 'heron not-connected'],
  ['50 05 4b 46 7f ff 0c 10 1c', 'heron error-code'],
  ['a1 01 4b 46 7f ff 0c 10 5c', 'heron error-code'],
])('%s is no temperature', async (bytes, said) => {
  device('28-0000055f1a2b', bytes)
  expect((await heard()).heard).toEqual([said])
})

test('an empty file and a missing folder are told', async () => {
  mkdirSync(join(folder, '28-0000055f1a2b'))
  writeFileSync(join(folder, '28-0000055f1a2b', 'w1_slave'), '')
  expect((await heard()).samples).toMatchObject([{ kind: 'fault', found: 'empty file' }])
  const away = await heard({ folder: join(folder, 'none') })
  expect(away.ways[0]).toMatch(/can't be read; is the one-wire driver switched on/)
})

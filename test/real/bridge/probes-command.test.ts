import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { connectAsync } from 'mqtt'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { mosquitto, type TestBroker } from '../../kit/mosquitto.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { type Cable, cable } from '../../kit/pty.ts'
import { until } from '../../kit/until.ts'

let folder = ''
let usb: Cable
let broker: TestBroker
let server: Program
let feeding: NodeJS.Timeout

beforeAll(async () => {
  buildProgram()
  folder = mkdtempSync(join(tmpdir(), 'holdfast-probes-'))
  usb = await cable(folder)
  broker = await mosquitto(folder)
  const probes = [
    { name: 'heron', kind: 'serial-lines', path: usb.port, line: 'T={tempC}', lagS: 12 },
    { name: 'wren', kind: 'serial-lines', path: join(folder, 'not-plugged-in'), line: 'T={tempC}' },
    { name: 'otter', kind: 'mqtt', url: `mqtt://127.0.0.1:${broker.port}`, topic: 'studio/otter' },
  ]
  mkdirSync(join(folder, 'data'))
  writeFileSync(join(folder, 'data', 'holdfast.json'), JSON.stringify({ probes }))
  server = new Program(['serve', '--data', join(folder, 'data'), '--port', '0'])
  await server.start(/ready/)
  let n = 0
  feeding = setInterval(() => usb.send(`T=${(71 + (n++ % 10) / 100).toFixed(2)}\n`), 100)
})

afterAll(async () => {
  clearInterval(feeding)
  await server.stop()
  await broker.stop()
  await usb.pull()
  rmSync(folder, { recursive: true })
})

async function run(...args: string[]): Promise<string> {
  const command = new Program(['probes', '--data', join(folder, 'data'), ...args])
  await command.start()
  await until(() => !command.isUp, { withinMs: 20_000 })
  return command.output
}

test('probes lists each with reading, age, lag, state and where it hangs, and says what is wrong', async () => {
  await new Promise((resolve) => setTimeout(resolve, 2500))
  const lines = (await run()).split('\n')
  expect(lines[0]).toMatch(
    /probe +reading +age +every +rate +noise °C +state +battery +lag +correction +hangs on/,
  )
  const heron = lines.find((line) => line.startsWith('heron'))
  expect(heron).toMatch(/71\.\d °C +\d\.\d s .*ok .*12 s .*none +\S*usb-port/)
  expect(lines.find((line) => line.startsWith('wren:'))).toMatch(/is not there; is the probe plugged in/)
  expect(await run('--unit', 'F')).toMatch(/heron +(159|160)\.\d °F/)
})

test('as JSON it is one array', async () => {
  const all = JSON.parse(await run('--json')) as readonly { name: string; tempC: number | null }[]
  expect(all.map((p) => p.name)).toEqual(['heron', 'otter', 'wren'])
  expect(all[0]!.tempC).toBeGreaterThan(70)
})

test('find lists topics with live values', async () => {
  const device = await connectAsync(`mqtt://127.0.0.1:${broker.port}`)
  const publishing = setInterval(() => device.publish('shed/unknown/temp', '23.4'), 200)
  const found = JSON.parse(await run('--find', '--json')) as readonly {
    where: string
    lastNumber: number | null
  }[]
  clearInterval(publishing)
  await device.endAsync(true)
  expect(found.find((c) => c.where === 'shed/unknown/temp')).toMatchObject({
    kind: 'mqtt',
    lastNumber: 23.4,
    usedBy: null,
  })
})

test('without a server it says so in one sentence', async () => {
  const command = new Program(['probes', '--server', 'http://127.0.0.1:9'])
  await command.start()
  await until(() => !command.isUp)
  expect(command.output).toMatch(
    /^holdfast: the server http:\/\/127.0.0.1:9 does not answer .*npm start.*\n$/,
  )
})

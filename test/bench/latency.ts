// From a byte on the pseudo-terminal to the event in a websocket client, side by side in one run with the bare chain
// of the same libraries (serial port, outbox commit, HTTP, commit, websocket). Lines go to the two in turn.
//
//   npm run bench:latency            (600 lines each, about a minute; SAMPLES=2000 for more)
//
// Prints figures and the ratio; asserts nothing.
import { type ChildProcess, spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { io, type Socket } from 'socket.io-client'
import { buildProgram, Program } from '../kit/program.ts'
import { type Cable, cable } from '../kit/pty.ts'

const SAMPLES = Number(process.env['SAMPLES'] ?? 600)
const WARM_UP = 100
const BARE = join(import.meta.dirname, 'bare')

const folder = mkdtempSync(join(tmpdir(), 'holdfast-latency-'))

/** One chain: a cable to write to and a websocket that hears the values. */
interface Chain {
  readonly name: string
  readonly usb: Cable
  readonly page: Socket
  readonly delaysMs: number[]
}

/** Waits for the value's event and notes how long it took; one that never comes is counted as lost. */
function ping({ usb, page, delaysMs }: Chain, value: number): Promise<boolean> {
  return new Promise((resolve) => {
    const lost = setTimeout(() => done(false), 5000)
    const done = (came: boolean) => {
      clearTimeout(lost)
      page.off('reading', heard)
      resolve(came)
    }
    const startMs = performance.now()
    const heard = (reading: { tempC: number | null }) => {
      if (reading.tempC === null || Math.abs(reading.tempC - value) > 1e-6) return
      delaysMs.push(performance.now() - startMs)
      done(true)
    }
    page.on('reading', heard)
    usb.send(`T=${value.toFixed(3)}\n`)
  })
}

const quantile = (values: readonly number[], q: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(q * values.length))]!

function bareProgram(file: string, ...args: string[]): Promise<{ child: ChildProcess; said: string }> {
  const child = spawn(process.execPath, [join(BARE, file), ...args], { stdio: ['ignore', 'pipe', 'inherit'] })
  return new Promise((resolve) => {
    child.stdout.setEncoding('utf8').once('data', (said: string) => resolve({ child, said: said.trim() }))
  })
}

async function connected(url: string): Promise<Socket> {
  const page = io(url, { transports: ['websocket'] })
  await new Promise<void>((resolve) => page.once('connect', resolve))
  return page
}

async function main(): Promise<void> {
  buildProgram()
  const [ourUsb, bareUsb] = [await cable(folder, 'ours'), await cable(folder, 'bare')]
  mkdirSync(join(folder, 'data'))
  const probes = [{ name: 'heron', kind: 'serial-lines', path: ourUsb.port, line: 'T={tempC}' }]
  writeFileSync(join(folder, 'data', 'holdfast.json'), JSON.stringify({ probes }))
  const server = new Program(['serve', '--data', join(folder, 'data'), '--port', '0'])
  await server.start(/ready/)
  const url = /ready (\S+)/.exec(server.output)![1]!
  const bareServer = await bareProgram('server.js', join(folder, 'bare-server.sqlite'))
  const bareUrl = bareServer.said.split(' ')[1]!
  const bareBridge = await bareProgram('bridge.js', bareUsb.port, join(folder, 'bare-outbox.sqlite'), bareUrl)
  const ours: Chain = { name: 'ours', usb: ourUsb, page: await connected(url), delaysMs: [] }
  const bare: Chain = { name: 'bare', usb: bareUsb, page: await connected(bareUrl), delaysMs: [] }
  await new Promise((resolve) => setTimeout(resolve, 3000))

  let lost = 0
  for (let i = 0; i < SAMPLES + WARM_UP; i++) {
    if (i === WARM_UP) for (const chain of [ours, bare]) chain.delaysMs.length = 0
    for (const chain of [ours, bare]) {
      if (!(await ping(chain, 40 + i / 1000))) lost++
      await new Promise((resolve) => setTimeout(resolve, 15 + 20 * Math.random()))
    }
  }

  const of = ({ name, delaysMs }: Chain) =>
    `${name}: p50 ${quantile(delaysMs, 0.5).toFixed(2)} ms, p90 ${quantile(delaysMs, 0.9).toFixed(2)} ms, ` +
    `p99 ${quantile(delaysMs, 0.99).toFixed(2)} ms, most ${Math.max(...delaysMs).toFixed(2)} ms`
  console.log(`${SAMPLES} lines each, Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? '?'}`)
  console.log(of(ours))
  console.log(of(bare))
  const ratio = (q: number) => (quantile(ours.delaysMs, q) / quantile(bare.delaysMs, q)).toFixed(2)
  console.log(`ratio: p50 ${ratio(0.5)}, p99 ${ratio(0.99)}; lost ${lost}`)

  for (const chain of [ours, bare]) chain.page.close()
  bareBridge.child.kill()
  bareServer.child.kill()
  await server.stop()
  await ourUsb.pull()
  await bareUsb.pull()
  rmSync(folder, { recursive: true })
}

await main()

import { readFileSync } from 'node:fs'
import { connect, type Socket as TcpSocket } from 'node:net'
import { io } from 'socket.io-client'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { MORDANT_PLAN } from '../../kit/studio-server.ts'
import { watchSlowness } from '../../kit/slowness.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

const POTS = 10
const READINGS_A_SECOND = 10

async function started(): Promise<{ readonly url: string; readonly pid: number }> {
  const data = tempFolder()
  const server = new Program(['serve', '--data', data, '--port', '0', '--no-bridge', '--log', 'error'])
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready (\S+)\n/)
  const { pid } = JSON.parse(readFileSync(`${data}/server.json`, 'utf8')) as { pid: number }
  return { url: /ready (\S+)/.exec(server.output)![1]!, pid }
}

async function post(url: string, path: string, body: unknown): Promise<void> {
  const type = path === '/api/readings' ? 'application/senml+json' : 'application/json'
  const answer = await fetch(url + path, {
    method: 'POST',
    body: JSON.stringify(body),
    headers: { 'content-type': type },
  })
  expect([path, answer.status < 300]).toEqual([path, true])
}

const pots = Array.from({ length: POTS }, (_, n) => `pot-${n}`)
const pack = (tempC: number) => pots.map((pot) => ({ n: `pi/${pot}`, u: 'Cel', v: tempC }))

async function tenPots(url: string): Promise<void> {
  await post(url, '/api/readings', pack(84))
  await post(url, '/api/plans', MORDANT_PLAN)
  for (const [n, pot] of pots.entries()) {
    await post(url, '/api/pots', { title: pot, probe: pot })
    await post(url, '/api/batches', { title: pot, planId: 1 })
    await post(url, `/api/batches/${n + 1}/stages/mordant/start`, { potId: pot })
  }
}

/** Ten readings a second for each pot, about as fast as asked for. */
async function readingsFor(url: string, forMs: number): Promise<void> {
  const endMs = performance.now() + forMs
  for (let n = 0; performance.now() < endMs; n += 1) {
    await post(url, '/api/readings', pack(84 + (n % 7) / 100))
    await new Promise((resolve) => setTimeout(resolve, 1000 / READINGS_A_SECOND))
  }
}

/** A websocket that was opened as it should be and then reads nothing more, though it says that it is there. */
function deafPage(url: string): Promise<TcpSocket> {
  const { host, port, hostname } = new URL(url)
  const socket = connect(Number(port), hostname)
  onTestFinished(() => void socket.destroy())
  socket.on('error', () => undefined)
  socket.write(
    `GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: ${host}\r\nConnection: Upgrade\r\n` +
      'Upgrade: websocket\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n',
  )
  return new Promise((resolve) => {
    socket.once('data', () => {
      // "40": joins the pages; masked with zeros, so that it stands as it is.
      socket.write(Buffer.from([0x81, 0x82, 0, 0, 0, 0, 0x34, 0x30]))
      setTimeout(() => {
        socket.pause()
        // "3": answers pings that it has not read, so that only how far it is behind tells.
        const ponging = setInterval(() => socket.write(Buffer.from([0x81, 0x81, 0, 0, 0, 0, 0x33])), 2000)
        onTestFinished(() => clearInterval(ponging))
        resolve(socket)
      }, 200)
    })
  })
}

const residentMB = (pid: number): number =>
  Number(/VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) / 1024

test('five pages that never read do not let the server grow by 50 MB', async () => {
  const { url, pid } = await started()
  await tenPots(url)
  await readingsFor(url, 4000)
  const beforeMB = residentMB(pid)
  for (let n = 0; n < 5; n += 1) await deafPage(url)
  expect(await (await fetch(`${url}/metrics`)).text()).toContain('holdfast_pages 5\n')
  await readingsFor(url, 12_000)
  expect(residentMB(pid) - beforeMB).toBeLessThan(50)
})

/** As much of a request as keeps a socket waiting; as soon as it is let go, the next one comes. */
function halfOpened(url: string, isOver: () => boolean): void {
  const { port, hostname, host } = new URL(url)
  const half = connect(Number(port), hostname)
  onTestFinished(() => void half.destroy())
  half.on('error', () => undefined)
  half.on('close', () => setTimeout(() => !isOver() && halfOpened(url, isOver), 200))
  half.write(`GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: ${host}\r\n`)
}

/** A page that asks without end: it is sent away, comes back and begins anew. */
function askingPage(url: string): { readonly asked: () => number } {
  let asked = 0
  const page = io(url, { transports: ['websocket'], forceNew: true, reconnectionDelay: 50 })
  // Sent away by the server it would stay away by itself.
  page.on('disconnect', () => setTimeout(() => page.connect(), 50))
  const asking = setInterval(() => {
    for (let n = 0; n < 50 && page.connected; n += 1, asked += 1) page.emit('nobody-knows-this', { n })
  }, 25)
  onTestFinished(() => {
    clearInterval(asking)
    page.close()
  })
  return { asked: () => asked }
}

/** Packs that are too large, no JSON, or of nobody: refused as fast as they come. */
async function badPosts(url: string, isOver: () => boolean): Promise<number> {
  const bodies = ['{', 'x'.repeat(200_000), JSON.stringify([{ n: 'no/where', u: 'K', v: 1 }])]
  let refused = 0
  for (let n = 0; !isOver(); n += 1) {
    const headers = { 'content-type': n % 2 === 0 ? 'application/senml+json' : 'text/plain' }
    const answer = await fetch(`${url}/api/readings`, {
      method: 'POST',
      headers,
      body: bodies[n % 3]!,
    }).catch(() => null)
    if (answer !== null) {
      await answer.arrayBuffer()
      refused += 1
    }
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
  return refused
}

const FLOOD_MS = 24_000

/** Each pot in its turn goes over its ceiling of 90 °C. */
const tempOf = (pot: number, atMs: number): number =>
  Math.min(93, 84 + Math.max(0, atMs - 2000 - 1500 * pot) / 250)

// The flood of the acceptance list for a hostile network: half-open sockets, pages that never read or ask without end.
test('in a flood every alarm reaches a page within 2 s, and the server grows by less than 50 MB', async () => {
  const { url, pid } = await started()
  await tenPots(url)
  const slowness = watchSlowness()
  const page = io(url, { transports: ['websocket'] })
  onTestFinished(() => void page.close())
  await new Promise<void>((resolve) => page.once('connect', resolve))
  const endMs = performance.now() + FLOOD_MS
  const pots90 = new Set<string>()
  // A busy machine gets on with its readings more slowly, and so with its alarms.
  const isOver = () =>
    performance.now() > endMs && (pots90.size === POTS || performance.now() > endMs + FLOOD_MS)
  for (let n = 0; n < 3; n += 1) await deafPage(url)
  for (let n = 0; n < 500; n += 1) halfOpened(url, isOver)
  const asking = [askingPage(url), askingPage(url)]
  const refused = badPosts(url, isOver)
  const waitsMs: number[] = []
  page.on('alarm', ({ alarm, change, pot, raisedAt }: Record<string, string>) => {
    if (change === 'raised') waitsMs.push(Date.now() - Date.parse(raisedAt!))
    if (alarm === 'above-ceiling') pots90.add(pot!)
  })
  const startMs = performance.now()
  const memory: { readonly atMs: number; readonly mB: number }[] = []
  while (!isOver()) {
    memory.push({ atMs: performance.now() - startMs, mB: residentMB(pid) })
    const temps = pots.map((_, n) => tempOf(n, performance.now() - startMs))
    await post(
      url,
      '/api/readings',
      pots.map((pot, n) => ({ n: `pi/${pot}`, u: 'Cel', v: temps[n]! })),
    )
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  expect(pots90.size).toBe(POTS)
  expect(Math.max(...waitsMs)).toBeLessThan(2000 * slowness())
  // Memory goes up and down as rubbish is collected; what must not rise is where it comes down to.
  const leastMB = (fromMs: number, toMs: number) =>
    Math.min(...memory.filter(({ atMs }) => atMs >= fromMs && atMs < toMs).map(({ mB }) => mB))
  expect(leastMB(FLOOD_MS - 9000, FLOOD_MS) - leastMB(4000, 13_000)).toBeLessThan(50)
  // The flood was one.
  expect(await refused).toBeGreaterThan(50)
  expect(asking.every(({ asked }) => asked() > 500)).toBe(true)
})

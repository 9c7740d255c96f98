import { readFileSync } from 'node:fs'
import { connect, type Socket as TcpSocket } from 'node:net'
import { io } from 'socket.io-client'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { MORDANT_PLAN } from '../../kit/studio-server.ts'
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

test('five pages that never read do not let the server grow by 50 MB', { timeout: 60_000 }, async () => {
  const { url, pid } = await started()
  await tenPots(url)
  await readingsFor(url, 4000)
  const beforeMB = residentMB(pid)
  for (let n = 0; n < 5; n += 1) await deafPage(url)
  expect(await (await fetch(`${url}/metrics`)).text()).toContain('holdfast_pages 5\n')
  await readingsFor(url, 12_000)
  expect(residentMB(pid) - beforeMB).toBeLessThan(50)
})

test(
  'among 200 sockets that were only half opened an alarm reaches a page within 2 s',
  { timeout: 60_000 },
  async () => {
    const { url } = await started()
    await tenPots(url)
    const { port, hostname, host } = new URL(url)
    for (let n = 0; n < 200; n += 1) {
      const half = connect(Number(port), hostname)
      half.on('error', () => undefined)
      half.write(`GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: ${host}\r\n`)
      onTestFinished(() => void half.destroy())
    }
    const page = io(url, { transports: ['websocket'] })
    onTestFinished(() => void page.close())
    await new Promise<void>((resolve) => page.once('connect', resolve))
    const asking = setInterval(() => {
      for (let n = 0; n < 20; n += 1) page.emit('nobody-knows-this', { n })
    }, 1000)
    onTestFinished(() => clearInterval(asking))
    const raised = new Map<string, { atMs: number; raisedAt: number }>()
    page.on('alarm', ({ alarm, pot, raisedAt }: { alarm: string; pot: string; raisedAt: string }) => {
      if (alarm === 'above-ceiling') raised.set(pot, { atMs: Date.now(), raisedAt: Date.parse(raisedAt) })
    })
    const endMs = performance.now() + 10_000
    for (let n = 0; performance.now() < endMs; n += 1) {
      await post(url, '/api/readings', pack(n < 10 ? 84 : n < 12 ? 88 : 92 + (n % 3) / 10))
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    expect(raised.size).toBe(POTS)
    for (const { atMs, raisedAt } of raised.values()) expect(atMs - raisedAt).toBeLessThan(2000)
  },
)

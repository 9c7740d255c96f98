import { execFileSync } from 'node:child_process'
import { existsSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { cable } from '../../kit/pty.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

/** The processes that work in this folder as a bridge. */
function bridgesIn(folder: string): readonly number[] {
  const lines = execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' }).split('\n')
  return lines
    .filter((line) => line.includes(' bridge ') && line.includes(folder))
    .map((line) => Number.parseInt(line, 10))
}

async function startedOn(server: Program): Promise<string> {
  const from = server.output.length
  await server.start(/ready (\S+)\n/)
  return /ready (\S+)/.exec(server.output.slice(from))![1]!
}

async function traceOf(url: string): Promise<readonly number[]> {
  const now = Date.now()
  const range = `from=${new Date(now - 600_000).toISOString()}&to=${new Date(now + 60_000).toISOString()}`
  const answer = await fetch(`${url}/api/trace?probe=heron&points=100000&${range}`)
  if (answer.status === 404) return []
  const { points } = (await answer.json()) as { points: [number, number][] }
  return points.map(([, tempC]) => tempC)
}

/** A studio with one serial probe that counts: 20.01 °C, 20.02 °C and so on, ten a second. */
async function countingProbe(folder: string) {
  const usb = await cable(folder)
  onTestFinished(() => usb.pull())
  const probe = { name: 'heron', kind: 'serial-lines', path: usb.port, baud: 9600, line: 'T={tempC}' }
  writeFileSync(join(folder, 'holdfast.json'), JSON.stringify({ port: 0, probes: [probe] }))
  let count = 0
  const sending = setInterval(() => {
    count += 1
    usb.send(`T=${tempOf(count)}\n`)
  }, 100)
  onTestFinished(() => clearInterval(sending))
  return { usb, sent: () => count }
}

const tempOf = (count: number): number => Math.round((20 + count / 100) * 100) / 100
const valuesOf = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => tempOf(from + i))

test('the bridge of a killed server reads on, and makes room for that of the next one', async () => {
  const folder = tempFolder()
  const { usb, sent } = await countingProbe(folder)
  const server = new Program(['serve', '--data', folder])
  onTestFinished(() => server.stop())
  const first = await startedOn(server)
  await expect.poll(async () => (await traceOf(first)).length).toBeGreaterThan(10)
  const [bridge] = bridgesIn(folder)
  const fromCount = sent() - 5

  await server.stop('SIGKILL')
  await wait(2000)
  expect(bridgesIn(folder)).toEqual([bridge])
  await usb.pull()
  await wait(500)
  await usb.plug()
  // Until the port is open again nobody hears the probe.
  await wait(3000)
  const backCount = sent()
  await wait(1500)
  const untilCount = sent() - 5

  const second = await startedOn(server)
  await expect.poll(() => bridgesIn(folder).filter((pid) => pid !== bridge).length).toBe(1)
  await expect.poll(() => bridgesIn(folder)).toHaveLength(1)
  const alone = valuesOf(backCount, untilCount)
  await expect.poll(() => traceOf(second)).toEqual(expect.arrayContaining(alone))
  const all = await traceOf(second)
  expect(all).toEqual(expect.arrayContaining(valuesOf(fromCount, fromCount + 20)))
  expect(new Set(all).size).toBe(all.length)
  // The new bridge reads the port.
  const now = sent()
  await expect.poll(() => traceOf(second)).toContain(tempOf(now + 20))
})

test('a bridge that was left alone ends with the note of its server, or when it is asked', async () => {
  const folder = tempFolder()
  await countingProbe(folder)
  const server = new Program(['serve', '--data', folder])
  onTestFinished(() => server.stop())
  await startedOn(server)
  await server.stop('SIGKILL')
  expect(bridgesIn(folder)).toHaveLength(1)
  rmSync(join(folder, 'server.json'))
  await expect.poll(() => bridgesIn(folder)).toEqual([])

  await startedOn(server)
  await server.stop('SIGKILL')
  await wait(1000)
  process.kill(bridgesIn(folder)[0]!, 'SIGTERM')
  await expect.poll(() => bridgesIn(folder)).toEqual([])
})

test('an orderly end takes the bridge along', async () => {
  const folder = tempFolder()
  await countingProbe(folder)
  const server = new Program(['serve', '--data', folder])
  onTestFinished(() => server.stop())
  await startedOn(server)
  await server.stop()
  expect(bridgesIn(folder)).toEqual([])
  expect(existsSync(join(folder, 'server.json'))).toBe(false)
  expect(server.output).not.toContain('the server has died')
})

test('a second bridge on one data folder is refused with one sentence', async () => {
  const folder = tempFolder()
  const args = ['bridge', '--server', 'http://127.0.0.1:9', '--data', folder]
  const first = new Program(args)
  onTestFinished(() => first.stop())
  await first.start(/bridge running/)
  const second = new Program(args)
  await second.start()
  await expect.poll(() => second.isUp).toBe(false)
  expect(second.output).toMatch(/^holdfast: a bridge works in .*bridge already; end it, or name another/)
})

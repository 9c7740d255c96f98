import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { connectAsync } from 'mqtt'
import { expect, onTestFinished, test } from 'vitest'
import { mosquitto } from '../kit/mosquitto.ts'
import { watchSlowness } from '../kit/slowness.ts'
import { tempFolder } from '../kit/temp-folder.ts'

/** The whole program as a user starts it, with a lamp in its settings. */
async function program(folder: string, settings: object, bridge = false) {
  writeFileSync(join(folder, 'holdfast.json'), JSON.stringify({ port: 0, ...settings }))
  const flags = bridge ? [] : ['--no-bridge']
  const child = spawn('node', ['server/commands/holdfast.js', 'serve', '--data', folder, ...flags], {
    cwd: join(import.meta.dirname, '../..'),
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  onTestFinished(() => end(child))
  child.stderr.resume()
  let said = ''
  for await (const part of child.stdout) {
    said += String(part)
    const url = /ready (http:\S+)/.exec(said)?.[1]
    if (url !== undefined) return { child, url }
  }
  throw new Error(`expected "ready http://…", got ${said}`)
}

async function end(child: ChildProcess) {
  if (child.exitCode !== null || child.signalCode !== null) return
  const ended = once(child, 'exit')
  child.kill('SIGCONT')
  child.kill('SIGKILL')
  await ended
}

/** What a lamp has heard last, by topic; and whether it came after it began to listen. */
async function lamp(port: number) {
  const heard = new Map<string, string>()
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`)
  onTestFinished(() => client.endAsync(true))
  client.on('message', (topic, payload) => void heard.set(topic, payload.toString()))
  await client.subscribeAsync('holdfast/#', { qos: 1 })
  return (topic: string) => heard.get(topic)
}

async function post(url: string, path: string, body: unknown) {
  const type = path === '/api/readings' ? 'application/senml+json' : 'application/json'
  const answer = await fetch(url + path, {
    method: 'POST',
    headers: { 'content-type': type },
    body: JSON.stringify(body),
  })
  if (answer.status >= 300) throw new Error(`expected ${path} to be taken, got ${await answer.text()}`)
  return (await answer.json()) as { id: number }
}

const read = (url: string, tempC: number) =>
  post(url, '/api/readings', [{ n: 'urn:heron', u: 'Cel', v: tempC }])

const PLAN = {
  title: 'Red on wool',
  stages: [{ id: 'dye', title: 'Dye', kind: 'hold', windowC: [60, 65], ceilingC: 70, holdMin: 60 }],
}

async function heronInDyeBath(url: string, probe: string) {
  await post(url, '/api/pots', { title: 'Heron', probe })
  const plan = await post(url, '/api/plans', PLAN)
  const batch = await post(url, '/api/batches', { title: 'Two skeins', planId: plan.id, dryWeightG: 400 })
  await post(url, `/api/batches/${batch.id}/stages/dye/start`, { potId: 'heron' })
}

async function heronOverItsCeiling(url: string) {
  await read(url, 69)
  await heronInDyeBath(url, 'urn:heron')
  for (let tempC = 69.2; tempC <= 72; tempC += 0.2) {
    await read(url, tempC)
    await new Promise((resolve) => setTimeout(resolve, 700))
  }
}

test('a lamp shows the alarm, and that the server was killed; the next run calls it again', async () => {
  const folder = tempFolder()
  const broker = await mosquitto(folder)
  onTestFinished(() => broker.stop())
  const shows = await lamp(broker.port)
  const settings = { lamp: { url: `mqtt://127.0.0.1:${broker.port}` } }
  const first = await program(folder, settings)
  await expect.poll(() => shows('holdfast/alive')).toBe('1')
  await heronOverItsCeiling(first.url)
  await expect.poll(() => Number(shows('holdfast/heron/level'))).toBeGreaterThan(2)
  expect(JSON.parse(shows('holdfast/heron/alarm')!)).toMatchObject({ alarm: 'above-ceiling' })

  first.child.kill('SIGKILL')
  await expect.poll(() => shows('holdfast/alive')).toBe('0')

  const second = await program(folder, settings)
  await expect.poll(() => shows('holdfast/alive')).toBe('1')
  await expect.poll(() => Number(shows('holdfast/heron/level'))).toBeGreaterThan(2)
  const alarms = (await (await fetch(`${second.url}/api/alarms`)).json()) as { alarm: string }[]
  expect(alarms.filter((a) => a.alarm === 'above-ceiling')).toHaveLength(1)
})

// MQTT 3.1.1 §3.1.2.10: the broker waits one and a half times the keep-alive (10 s here) before it sends the will.
test('a server that is frozen is gone for the lamp within 15 s, and back when it thaws', async () => {
  const folder = tempFolder()
  const broker = await mosquitto(folder)
  onTestFinished(() => broker.stop())
  const shows = await lamp(broker.port)
  const { child } = await program(folder, { lamp: { url: `mqtt://127.0.0.1:${broker.port}` } })
  await expect.poll(() => shows('holdfast/alive')).toBe('1')
  child.kill('SIGSTOP')
  const slowness = watchSlowness()
  const frozenMs = performance.now()
  await expect.poll(() => shows('holdfast/alive'), { timeout: 30_000, interval: 100 }).toBe('0')
  // The broker looks once in a while, so a little is added to its 15 s.
  expect(performance.now() - frozenMs).toBeLessThan(22_000 * slowness())
  child.kill('SIGCONT')
  await expect.poll(() => shows('holdfast/alive'), { timeout: 20_000 }).toBe('1')
})

test('a bridge of its own calls when the server is dead and the bath over its ceiling', async () => {
  const folder = tempFolder()
  const broker = await mosquitto(folder)
  onTestFinished(() => broker.stop())
  const url = `mqtt://127.0.0.1:${broker.port}`
  const shows = await lamp(broker.port)
  const probes = [{ name: 'heron', kind: 'mqtt', url, topic: 'studio/heron' }]
  const server = await program(folder, { lamp: { url }, probes })

  const flags = ['--server', server.url, '--data', join(folder, 'beside'), '--name', 'pi']
  const bridge = spawn('node', ['server/commands/holdfast.js', 'bridge', ...flags], {
    cwd: join(import.meta.dirname, '../..'),
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  onTestFinished(() => end(bridge))
  let said = ''
  bridge.stderr.on('data', (part) => (said += String(part)))

  const board = await connectAsync(url)
  onTestFinished(() => board.endAsync(true))
  let tempC = 69
  const probing = setInterval(() => board.publish('studio/heron', String((tempC += 0.05))), 500)
  onTestFinished(() => clearInterval(probing))
  const isHeard = async () =>
    ((await (await fetch(`${server.url}/api/probes`)).json()) as { ageMs: number | null }[]).some(
      (p) => p.ageMs !== null && p.ageMs < 5000,
    )
  await expect.poll(isHeard, { timeout: 20_000 }).toBe(true)
  await heronInDyeBath(server.url, 'heron')
  // The bridge asks for its settings every 2 s, and so knows the ceiling after that.
  await new Promise((resolve) => setTimeout(resolve, 5000))

  server.child.kill('SIGKILL')
  await expect.poll(() => said, { timeout: 75_000 }).toContain('nobody watches Heron')
  await expect.poll(() => said).toContain('Heron: the probe reads')
  await expect.poll(() => shows('holdfast/heron/level')).toBe('4')
  expect(shows('holdfast/heron/alarm')).toContain('the server is silent')
})

import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { LetterBox } from '../../kit/letter-box.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { MORDANT_PLAN } from '../../kit/studio-server.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

async function startedOn(server: Program): Promise<string> {
  const from = server.output.length
  await server.start(/ready (\S+)\n/)
  return /ready (\S+)/.exec(server.output.slice(from))![1]!
}

async function post(url: string, path: string, body: unknown): Promise<void> {
  const type = path === '/api/readings' ? 'application/senml+json' : 'application/json'
  const headers = { 'content-type': type }
  const answer = await fetch(url + path, { method: 'POST', headers, body: JSON.stringify(body) })
  if (!answer.ok) throw new Error(`expected ${path} to be taken, got ${await answer.text()}`)
}

const read = (url: string, ...tempsC: readonly number[]) => {
  const startMs = Date.now() - tempsC.length * 100
  const pack = tempsC.map((v, i) => ({ n: 'urn:heron', u: 'Cel', t: (startMs + i * 100) / 1000, v }))
  return post(url, '/api/readings', pack)
}

async function overItsCeiling(url: string): Promise<void> {
  await read(url, 85)
  await post(url, '/api/pots', { title: 'Heron', probe: 'urn:heron' })
  await post(url, '/api/plans', MORDANT_PLAN)
  await post(url, '/api/batches', { title: 'Two skeins', planId: 1 })
  await post(url, '/api/batches/1/stages/mordant/start', { potId: 'heron' })
  for (let tempC = 86; tempC <= 92; tempC += 0.5) {
    await read(url, tempC)
    await new Promise((resolve) => setTimeout(resolve, 600))
  }
}

const isCeiling = ({ what }: { what: string }) => what === 'alarm.raised above-ceiling'

const lettersOf = (box: LetterBox) =>
  box.letters.map(({ headers, body }) => {
    const { type, data } = JSON.parse(body.toString()) as { type: string; data: { alarm?: string } }
    return { id: String(headers['webhook-id']), what: `${type} ${data.alarm ?? ''}` }
  })

test('a letter whose answer the program did not live to see is sent again by the next run, under its id', async () => {
  const folder = tempFolder()
  const box = new LetterBox()
  const hook = await box.open()
  onTestFinished(() => box.close())
  const settings = { port: 0, log: 'error', webhook: { url: hook, secret: 'A'.repeat(32) } }
  writeFileSync(join(folder, 'holdfast.json'), JSON.stringify(settings))
  const server = new Program(['serve', '--data', folder, '--no-bridge'])
  onTestFinished(() => server.stop('SIGKILL'))
  const first = await startedOn(server)
  // It takes the letter and never answers.
  box.answer = () => undefined
  await overItsCeiling(first)
  await expect.poll(() => lettersOf(box).filter(isCeiling), { timeout: 20_000 }).toHaveLength(1)
  await server.stop('SIGKILL')
  const before = lettersOf(box).find(isCeiling)

  box.letters.length = 0
  box.answer = 204
  await startedOn(server)
  await expect.poll(() => lettersOf(box).filter(isCeiling)).toEqual([before])

  // Once it is noted that it has arrived the third run has nothing to bring.
  const waiting = () =>
    (JSON.parse(readFileSync(join(folder, 'letters.json'), 'utf8')) as { waiting: number[] }).waiting
  await expect.poll(waiting).toEqual([])
  await server.stop('SIGKILL')
  box.letters.length = 0
  await startedOn(server)
  await new Promise((resolve) => setTimeout(resolve, 3000))
  expect(lettersOf(box).filter(isCeiling)).toEqual([])
})

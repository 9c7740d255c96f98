import { join } from 'node:path'
import Database from 'better-sqlite3'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { MORDANT_PLAN } from '../../kit/studio-server.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

const T0 = Date.UTC(2026, 0, 10)

const serve = (data: string) => ['serve', '--data', data, '--port', '0', '--no-bridge', '--log', 'error']

async function started(server: Program): Promise<string> {
  const from = server.output.length
  await server.start(/ready (\S+)\n/)
  return /ready (\S+)/.exec(server.output.slice(from))![1]!
}

/** `null`: no answer, so nothing was promised. */
async function ask(url: string, method: string, path: string, body?: unknown) {
  const type = path === '/api/readings' ? 'application/senml+json' : 'application/json'
  try {
    const answer = await fetch(url + path, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': type } }),
    })
    return { status: answer.status, body: (await answer.json()) as any } // oxlint-disable-line typescript/no-explicit-any
  } catch {
    return null
  }
}

async function holdIn(url: string): Promise<void> {
  await ask(url, 'POST', '/api/readings', [{ n: 'pi/heron', u: 'Cel', v: 84 }])
  await ask(url, 'POST', '/api/pots', { title: 'Heron', probe: 'heron' })
  await ask(url, 'POST', '/api/plans', MORDANT_PLAN)
  await ask(url, 'POST', '/api/batches', { title: 'Two skeins', planId: 1 })
  await ask(url, 'POST', '/api/batches/1/stages/mordant/start', { potId: 'heron' })
}

test('a server killed in mid-hold, ten times, has every reading that it had acknowledged, once', async () => {
  const data = tempFolder()
  const server = new Program(serve(data))
  onTestFinished(() => server.stop('SIGKILL'))
  let seq = 0
  const acknowledged: number[] = []
  for (let run = 0; run < 10; run += 1) {
    const url = await started(server)
    if (run === 0) await holdIn(url)
    const killAfter = 5 + ((run * 7) % 11)
    const sending = (async () => {
      for (;;) {
        const sent = [seq, seq + 1, seq + 2]
        seq += 3
        const pack = sent.map((n) => ({
          n: 'pi/heron',
          u: 'Cel',
          t: T0 / 1000 + n,
          v: 84,
          boot: 'b',
          seq: n,
        }))
        const answer = await ask(url, 'POST', '/api/readings', pack)
        if (answer === null) return
        if (answer.status === 200) acknowledged.push(...sent)
      }
    })()
    while (acknowledged.length < (run + 1) * killAfter) await new Promise((resolve) => setTimeout(resolve, 1))
    await server.stop('SIGKILL')
    await sending
  }
  const url = await started(server)
  const stove = await ask(url, 'GET', '/api/stove')
  expect(stove!.body.pots[0]).toMatchObject({
    potId: 'heron',
    batch: { title: 'Two skeins' },
    stage: { id: 'mordant' },
  })
  const again = await ask(
    url,
    'POST',
    '/api/readings',
    acknowledged.map((n) => ({ n: 'pi/heron', u: 'Cel', t: T0 / 1000 + n, v: 84, boot: 'b', seq: n })),
  )
  expect(again!.body).toEqual({ stored: 0, duplicates: acknowledged.length, refused: [] })
  await server.stop('SIGTERM')
  const db = new Database(join(data, 'holdfast.db'), { readonly: true })
  const rows = db
    .prepare('select at_ms, count(*) n from reading where at_ms < ? group by at_ms')
    .all(Date.UTC(2026, 0, 11)) as {
    at_ms: number
    n: number
  }[]
  expect(db.pragma('integrity_check', { simple: true })).toBe('ok')
  db.close()
  expect(rows.every((row) => row.n === 1)).toBe(true)
  const stored = new Set(rows.map((row) => (row.at_ms - T0) / 1000))
  expect(acknowledged.filter((n) => !stored.has(n))).toEqual([])
  expect(acknowledged.length).toBeGreaterThan(100)
})

test('a disk that fills up: readings are refused and asked for again, the alarm comes, and later all is written', async () => {
  const data = tempFolder()
  const server = new Program(serve(data), {}, 2048)
  onTestFinished(() => server.stop('SIGKILL'))
  const url = await started(server)
  await holdIn(url)
  let refused: Awaited<ReturnType<typeof ask>> = null
  for (let n = 0; refused === null && n < 5000; n += 1) {
    const pack = Array.from({ length: 200 }, (_, i) => ({
      n: 'pi/wren',
      u: 'Cel',
      t: T0 / 1000 + n * 200 + i,
      v: 20 + (i % 50) / 7,
      boot: 'b',
      seq: n * 200 + i,
    }))
    const answer = await ask(url, 'POST', '/api/readings', pack)
    if (answer!.status !== 200) refused = answer
  }
  expect(refused?.status).toBe(503)
  expect(refused?.body.detail).toContain('nothing is being recorded')
  expect((await ask(url, 'GET', '/healthz'))!.status).toBe(503)
  for (let n = 0; n < 10; n += 1) {
    await ask(url, 'POST', '/api/readings', [{ n: 'pi/heron', u: 'Cel', v: n < 2 ? 88 : 92 + (n % 2) / 10 }])
    await new Promise((resolve) => setTimeout(resolve, 1000))
  }
  const stove = await ask(url, 'GET', '/api/stove')
  expect(stove!.body.trouble).toContain('nothing is being recorded')
  expect(stove!.body.alarms.map((a: { alarm: string }) => a.alarm)).toContain('above-ceiling')
  server.liftLimit()
  await expect.poll(async () => (await ask(url, 'GET', '/healthz'))!.body.ok).toBe(true)
  expect((await ask(url, 'POST', '/api/readings', [{ n: 'pi/heron', u: 'Cel', v: 92 }]))!.status).toBe(200)
  const { body } = (await ask(url, 'GET', '/api/alarms'))!
  expect(body.map((a: { alarm: string }) => a.alarm)).toContain('above-ceiling')
})

import { expect, test } from 'vitest'
import type { Store } from '../../../server/store/store.ts'
import { heronInMordant, studioServer } from '../../kit/studio-server.ts'

const whole = { probe: 'urn:heron', fromMs: 0, toMs: Number.MAX_SAFE_INTEGER }

test('a pack is answered with what was stored, what came again and what was refused and why', async () => {
  const server = await studioServer()
  const t = server.clock.nowMs() / 1000
  const pack = [
    { bn: 'pi/', bt: t - 10, bu: 'Cel', n: 'heron', v: 71.25, boot: 'b', seq: 0 },
    { n: 'heron', t: 1, v: 71.5, boot: 'b', seq: 1 },
    { n: 'heron', t: 2, u: 'F', v: 160, boot: 'b', seq: 2 },
    { n: 'heron', t: 3, vs: 'not-connected: -127', boot: 'b', seq: 3 },
    'nonsense',
  ]
  const first = await server.ask('POST', '/api/readings', pack)
  expect([first.status, first.body.stored, first.body.duplicates]).toEqual([200, 3, 0])
  expect(first.body.refused).toEqual([
    { index: 2, why: 'unit "F"; the only one taken is "Cel"' },
    { index: 4, why: 'a SenML record is an object' },
  ])
  const again = await server.ask('POST', '/api/readings', pack)
  expect([again.body.stored, again.body.duplicates]).toEqual([0, 3])
  const stored = await server.store.readings.between({ ...whole, probe: 'heron' })
  expect(stored.map((r) => r.atMs - server.clock.nowMs())).toEqual([-10_000, -9000, -7000])
})

test('a reading that came before is not the newest of its probe, whatever it says now', async () => {
  const server = await studioServer()
  const t = server.clock.nowMs() / 1000
  const one = { n: 'pi/heron', u: 'Cel', boot: 'b', seq: 1 }
  await server.ask('POST', '/api/readings', [{ ...one, t: t - 20, v: 60 }])
  const again = await server.ask('POST', '/api/readings', [{ ...one, t: t - 10, v: 99 }])
  expect([again.body.stored, again.body.duplicates]).toEqual([0, 1])
  const [heron] = (await server.ask('GET', '/api/probes')).body
  expect(heron).toMatchObject({ tempC: 60, atMs: (t - 20) * 1000 })
})

test.each([
  ['decades ahead', Date.UTC(2099, 0, 1)],
  ['in 1979', Date.UTC(1979, 0, 1)],
])('a device without a counter whose clock is %s is stored once, however often it sends', async (_, atMs) => {
  const server = await studioServer()
  const pack = [70, 70.5].map((v, i) => ({ n: 'urn:heron', u: 'Cel', t: atMs / 1000 + i, v }))
  expect((await server.ask('POST', '/api/readings', pack)).body).toMatchObject({ stored: 2, duplicates: 0 })
  server.clock.advance(7000)
  expect((await server.ask('POST', '/api/readings', pack)).body).toMatchObject({ stored: 0, duplicates: 2 })
  expect(await server.store.readings.between(whole)).toHaveLength(2)
})

test.each([1e300, -1e300, 8_640_000_000_001])(
  'a time of %d s is no date and holds up nothing else',
  async (t) => {
    const server = await studioServer()
    const pack = [
      { n: 'urn:heron', u: 'Cel', t, v: 70 },
      { n: 'urn:heron', u: 'Cel', v: 71 },
    ]
    const { status, body } = await server.ask('POST', '/api/readings', pack)
    expect([status, body.stored]).toEqual([200, 1])
    expect(body.refused).toEqual([{ index: 0, why: `time ${t} s is no date` }])
  },
)

test('what is no pack at all is refused as a whole', async () => {
  const server = await studioServer()
  expect((await server.ask('POST', '/api/readings', { n: 'urn:heron', v: 1 })).body.detail).toBe(
    'a SenML pack is an array of records, RFC 8428',
  )
  expect((await server.ask('POST', '/api/readings', '[{')).status).toBe(400)
})

test('a correction holds from its date on and never rewrites what is stored', async () => {
  const server = await studioServer()
  await server.feed('heron', 70)
  const correction = { kind: 'offset', offsetC: -0.5, who: 'Ada' }
  expect((await server.ask('POST', '/api/probes/urn:heron/corrections', correction)).status).toBe(201)
  await server.feed('heron', 70)
  const readings = await server.store.readings.between(whole)
  expect(readings).toMatchObject([
    { rawC: 70, tempC: 70 },
    { rawC: 70, tempC: 69.5 },
  ])
  const [probe] = (await server.ask('GET', '/api/probes')).body
  expect(probe).toMatchObject({ name: 'urn:heron', tempC: 69.5, ageMs: 0, correction: { text: '-0.5 °C' } })
  const known = (await server.ask('GET', '/api/probes/urn:heron/corrections')).body
  expect(known).toMatchObject([{ who: 'Ada', body: { kind: 'offset', offsetC: -0.5 } }])
})

test('a probe that turns up by itself is listed as new until somebody says that it belongs here', async () => {
  const server = await studioServer()
  await server.feed('wren', 20)
  expect((await server.ask('GET', '/api/probes')).body[0]).toMatchObject({
    name: 'urn:wren',
    accepted: false,
  })
  await server.ask('POST', '/api/probes/urn:wren/accept', {})
  expect((await server.ask('GET', '/api/probes')).body[0]).toMatchObject({ accepted: true })
})

test('somebody who only logged in may not introduce a probe', async () => {
  const server = await studioServer({ settings: { passphrase: 'weld and woad 12' } })
  const { headers } = await server.ask('POST', '/api/log-in', { passphrase: 'weld and woad 12' })
  const cookie = headers.get('set-cookie')!.split(';')[0]!
  const pack = [{ n: 'urn:wren', u: 'Cel', v: 20 }]
  const person = await server.ask('POST', '/api/readings', pack, { cookie })
  expect(person.body.refused[0].why).toContain('probe "urn:wren" is not known here')
  const bridge = await server.ask('POST', '/api/readings', pack, { authorization: 'Bearer the-key' })
  expect(bridge.status).toBe(401)
})

test('a spot check typed by hand is kept under a probe of its own', async () => {
  const server = await studioServer()
  await server.ask('POST', '/api/pots', { title: 'Heron' })
  const typed = await server.ask('POST', '/api/pots/heron/readings', { tempC: 79.5, who: 'Ada' })
  expect([typed.status, typed.body.probe]).toEqual([201, 'heron.by-hand'])
  const { body } = await server.ask('GET', '/api/trace?probe=heron.by-hand')
  expect(body.points).toEqual([[server.clock.nowMs(), 79.5]])
  expect((await server.ask('POST', '/api/pots/heron/readings', { tempC: 175 })).body.detail).toBe(
    'tempC is 175; allowed is at most 110',
  )
})

/** A disk that can be filled up and emptied. */
function fillable(store: Store) {
  const disk = { isFull: false }
  const refuse = () => {
    if (disk.isFull) throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' })
  }
  const filling = <T extends object>(part: T): T =>
    new Proxy(part, {
      get: (target, name) => {
        const member = Reflect.get(target, name) as unknown
        if (typeof member !== 'function') return member
        return async (...args: unknown[]) => {
          if (/^(add|put|see|startStage|setOutcome)/.test(String(name))) refuse()
          return (member as (...a: unknown[]) => unknown).apply(target, args)
        }
      },
    })
  const wrapped: Store = {
    ...store,
    readings: filling(store.readings),
    alarms: filling(store.alarms),
    messages: filling(store.messages),
    events: filling(store.events),
    probeWrite: async () => {
      refuse()
      return store.probeWrite()
    },
  }
  return { disk, store: wrapped }
}

test('a full disk: readings are asked for again, the alarm comes from memory, and all is written later', async () => {
  let disk = { isFull: false }
  const server = await studioServer({
    store: (store) => {
      const made = fillable(store)
      disk = made.disk
      return made.store
    },
  })
  await heronInMordant(server)
  const page = server.page()
  const alarm = new Promise<{ id: number; alarm: string }>((resolve) => page.on('alarm', resolve))
  await new Promise((resolve) => page.once('stove', resolve))
  disk.isFull = true
  const pack = [{ n: 'urn:heron', u: 'Cel', v: 75.5 }]
  const refused = await server.ask('POST', '/api/readings', pack)
  expect([refused.status, refused.body.detail]).toEqual([
    503,
    'the disk is full: nothing is being recorded; make room on it; send them again later',
  ])
  expect((await server.ask('GET', '/healthz')).body).toMatchObject({ ok: false, storing: false })
  expect((await server.ask('GET', '/api/stove')).body.trouble).toContain('the disk is full')
  for (let tempC = 77; tempC < 93; tempC += 1) await server.feed('heron', tempC)
  await server.feed('heron', 93, 93.1, 93.2, 93.1, 93.2, 93.3)
  expect((await alarm).alarm).toBe('above-ceiling')
  expect(await server.store.alarms.list({ limit: 5 })).toEqual([])
  disk.isFull = false
  await server.wait(3)
  await server.feed('heron', 96)
  expect((await server.ask('GET', '/healthz')).body).toMatchObject({ ok: true, trouble: null })
  expect((await server.store.alarms.list({ limit: 5 })).map((a) => a.entry.alarm)).toContain('above-ceiling')
  expect((await server.store.messages.after(0, 99)).map((m) => m.message.id)).toContain((await alarm).id)
})

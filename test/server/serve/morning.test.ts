import { expect, test } from 'vitest'
import { heronInMordant, studioServer } from '../../kit/studio-server.ts'

interface Morning {
  readonly isQuiet: boolean
  readonly items: readonly { readonly kind: string; readonly text: string; readonly alarm?: string }[]
}

test('the morning tells of the alarm of the night, of the gap and of the probe, in words', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  for (let tempC = 76; tempC <= 93; tempC += 1) await server.feed('heron', tempC)
  await server.feed('heron', 93, 93.1, 93.2, 93.1, 93.2, 93.3)
  await server.wait(90)
  await server.feed('heron', 92, 92, 92)
  const morning = (await server.ask('GET', '/api/morning')).body as Morning
  expect(morning.isQuiet).toBe(false)
  const ceiling = morning.items.find((item) => item.alarm === 'above-ceiling')
  expect(ceiling?.text).toMatch(
    /^Heron \(Two skeins\): over the ceiling since 08:00, and still, at the worst 93/,
  )
  expect(morning.items.find((item) => item.kind === 'gap')?.text).toContain('no readings from 08:00 to 08:01')
  expect(morning.items.map((item) => item.kind)).toContain('probe-check-due')
})

test('a hold that runs has not fallen short; one that was ended early has', async () => {
  const server = await studioServer()
  const batchId = await heronInMordant(server)
  for (let tempC = 75.5; tempC <= 84; tempC += 0.5) await server.feed('heron', tempC)
  for (let i = 0; i < 30; i += 1) {
    await server.wait(9)
    await server.feed('heron', 84)
  }
  const kinds = async () =>
    ((await server.ask('GET', '/api/morning')).body as Morning).items.map((item) => item.kind)
  expect(await kinds()).not.toContain('hold-short')
  await server.ask('POST', `/api/batches/${batchId}/events`, { event: 'end' })
  await server.ask('POST', `/api/batches/${batchId}/end`, {})
  server.clock.advance(1000)
  expect(await kinds()).toContain('hold-short')
})

test('a studio without anything has a quiet morning', async () => {
  const server = await studioServer()
  expect((await server.ask('GET', '/api/morning')).body).toMatchObject({ isQuiet: true, items: [] })
})

test.each(['from=2026-01-10T09:00:00Z', 'from=2025-01-10T08:00:00Z', 'from=2026-01-10T07:00:00'])(
  'a stretch of %s is refused',
  async (query) => {
    const server = await studioServer()
    expect((await server.ask('GET', `/api/morning?${query}`)).status).toBe(400)
  },
)

import { io, type Socket } from 'socket.io-client'
import { expect, onTestFinished, test } from 'vitest'
import type { NoticeMessage, ServerToPage } from '#core/wire/live'
import { HandClock } from '../../kit/hand-clock.ts'
import { seeded } from '../../kit/seeded.ts'
import { watchSlowness } from '../../kit/slowness.ts'
import { heronInMordant, type StudioServer, studioServer } from '../../kit/studio-server.ts'

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

/** A page that is cut off now and then and comes back with the last number that it had, as the page does. */
function cutPage(url: () => string, random: { between(low: number, high: number): number }) {
  const ids: number[] = []
  const waitsMs: number[] = []
  let cuts = 0
  let socket: Socket<ServerToPage> | null = null
  const over = new AbortController()
  const live = async () => {
    while (!over.signal.aborted) {
      const backMs = Date.now()
      socket = io(url(), {
        transports: ['websocket'],
        forceNew: true,
        reconnection: false,
        auth: { lastId: ids.at(-1) ?? 0 },
      })
      socket.on('notice', ({ id, facts }: NoticeMessage) => {
        ids.push(id)
        // Told while it was away: counted from its coming back.
        waitsMs.push(Date.now() - Math.max(backMs, facts?.tempC ?? 0))
      })
      await wait(random.between(50, 900))
      socket.disconnect()
      cuts += 1
      await wait(random.between(0, 300))
    }
  }
  const done = live()
  const stop = async () => {
    over.abort()
    await done
  }
  onTestFinished(stop)
  return { ids, waitsMs, cuts: () => cuts, stop }
}

/** A notice that carries in its facts when it was told: its temperature is no matter here. */
function tell(server: StudioServer): void {
  const at = { potId: 'heron', stageId: 'mordant', atMs: server.clock.nowMs(), tempC: Date.now() }
  server.studio.teller.notice({ kind: 'notice', notice: 'turn-due', ...at })
}

test('3,000 messages reach three pages that are cut at random and a server that starts anew: each once, in order', async () => {
  let server = await studioServer()
  const { folder } = server
  await heronInMordant(server)
  const firstId = server.studio.teller.lastId
  const random = seeded(11)
  const slowness = watchSlowness()
  const pages = [1, 2, 3].map(() => cutPage(() => server.url, random))
  for (let n = 0; n < 3000; n += 1) {
    tell(server)
    if (n % 4 === 0) await wait(10)
    if (n === 1500) {
      const nowMs = server.clock.nowMs()
      await server.stop()
      server = await studioServer({ folder, clock: new HandClock(nowMs + 1000) })
    }
  }
  const { lastId } = server.studio.teller
  expect(lastId - firstId).toBeGreaterThanOrEqual(3000)
  for (const page of pages) await expect.poll(() => page.ids.at(-1), { timeout: 20_000 }).toBe(lastId)
  for (const { ids, waitsMs, cuts } of pages) {
    expect(ids).toEqual(Array.from({ length: lastId }, (_, i) => i + 1))
    expect(cuts()).toBeGreaterThan(10)
    const sorted = waitsMs.toSorted((a, b) => a - b)
    expect(sorted[Math.floor(sorted.length * 0.99)]!).toBeLessThan(2000 * slowness())
  }
})

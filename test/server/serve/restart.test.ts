import { existsSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { Store } from '../../../server/store/store.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { heronInMordant, studioServer } from '../../kit/studio-server.ts'

const stoveOf = async (server: Awaited<ReturnType<typeof studioServer>>) =>
  (await server.ask('GET', '/api/stove')).body

/** Nine minutes of a hold, then an end, orderly or not. */
async function heldAndEnded(): Promise<{ folder: string; nowMs: number; file: string }> {
  const server = await studioServer({ keeps: true })
  await heronInMordant(server)
  for (let tempC = 75.5; tempC <= 84; tempC += 0.5) await server.feed('heron', tempC)
  await server.feed('heron', ...Array.from({ length: 540 }, (_, s) => 84 + Math.sin(s / 40)))
  await server.stop()
  const file = join(server.folder, 'watch-checkpoint.json')
  return { folder: server.folder, nowMs: server.clock.nowMs() + 5000, file }
}

test('a start goes on from what was kept of the watch, and knows what the record makes of the whole day', async () => {
  const { folder, nowMs, file } = await heldAndEnded()
  expect(existsSync(file)).toBe(true)
  const readFrom: number[] = []
  const store = (all: Store): Store => {
    const between = all.readings.between.bind(all.readings)
    all.readings.between = (range) => {
      readFrom.push(range.fromMs)
      return between(range)
    }
    return all
  }
  const goesOn = await studioServer({ folder, clock: new HandClock(nowMs), keeps: true, store })
  const fromKept = await stoveOf(goesOn)
  expect(Math.min(...readFrom)).toBeGreaterThan(nowMs - 70_000)
  await goesOn.stop()
  rmSync(file)
  const again = await studioServer({ folder, clock: new HandClock(nowMs), keeps: true, store })
  const fromRecord = await stoveOf(again)
  expect(Math.min(...readFrom)).toBeLessThan(nowMs - 900_000)
  expect(fromKept.pots).toEqual(fromRecord.pots)
  expect(fromKept.pots[0].hold.inWindowS).toBeGreaterThan(500)
})

test('what was kept of the watch and can not be read is set aside, and the day is folded from the record', async () => {
  const { folder, nowMs, file } = await heldAndEnded()
  writeFileSync(file, '{"print":"torn')
  const server = await studioServer({ folder, clock: new HandClock(nowMs), keeps: true })
  expect((await stoveOf(server)).pots[0].hold.inWindowS).toBeGreaterThan(500)
  expect(existsSync(`${file}.unreadable`)).toBe(true)
})

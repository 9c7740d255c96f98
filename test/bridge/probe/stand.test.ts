import { expect, test } from 'vitest'
import type { Sample } from '#core/measure/reading'
import { Stand } from '../../../bridge/probe/stand.ts'
import { fakeWorld, settle } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'

const PATH = '/dev/ttyUSB0'
const serial = (more: object = {}) => settingsOf('serial-lines', { path: PATH, line: 'T={tempC}', ...more })

async function setUp() {
  const world = fakeWorld()
  world.serial.plugIn({ path: PATH })
  const samples: Sample[] = []
  const said: string[] = []
  const stand = new Stand({
    world,
    onSample: (sample) => samples.push(sample),
    onChange: () => {},
    onSay: (sentence) => said.push(sentence),
  })
  await stand.apply([serial()])
  await settle()
  const report = () => stand.reports()[0]!
  const feed = (text: string) => world.serial.feed(PATH, text)
  return { world, stand, samples, said, report, feed }
}

test('a probe waits, then is well, then silent after three of its periods', async () => {
  const { world, stand, report, feed } = await setUp()
  expect(report()).toMatchObject({ probe: 'heron', state: 'waiting', where: PATH, lastAtMs: null })
  for (let i = 0; i < 10; i++) {
    feed(`T=7${i}\n`)
    world.clock.advance(4000)
  }
  expect(report()).toMatchObject({ state: 'ok', lastRawC: 79, readings: 10 })
  world.clock.advance(8001)
  expect(report()).toMatchObject({ state: 'silent', sentence: 'no reading for 12 s' })
  feed('T=70\n')
  expect(report().state).toBe('ok')
  await stand.close()
  expect(world.clock.pending).toBe(0)
})

test('a probe that says nothing at all is silent after 30 s, with what came instead', async () => {
  const { world, stand, report, feed } = await setUp()
  world.clock.advance(20_000)
  feed('hello\n')
  world.clock.advance(10_001)
  expect(report()).toMatchObject({ state: 'silent', refused: 1 })
  expect(report().sentence).toMatch(/no reading since it was opened .* what came was .*hello/)
  await stand.close()
})

test('a fault that the probe reports is trouble with its words', async () => {
  const { stand, report, feed } = await setUp()
  feed('T=-127\n')
  expect(report()).toMatchObject({
    state: 'trouble',
    sentence: expect.stringContaining('not-connected: -127'),
  })
  await stand.close()
})

test('readings of one probe never share a time and never go back', async () => {
  const { stand, samples, feed } = await setUp()
  feed('T=70\nT=71\nT=72\n')
  const times = samples.map((s) => s.atMs)
  expect(new Set(times).size).toBe(3)
  expect(times).toEqual(times.toSorted((a, b) => a - b))
  await stand.close()
})

test('what did not change in the settings goes on undisturbed', async () => {
  const { world, stand, report, feed } = await setUp()
  feed('T=70\n')
  world.serial.plugIn({ path: '/dev/ttyUSB1' })
  await stand.apply([serial(), serial({ name: 'wren', path: '/dev/ttyUSB1' })])
  await settle()
  expect(world.serial.opened).toBe(2)
  expect(report().readings).toBe(1)
  await stand.apply([serial({ line: 'X={tempC}' })])
  await settle()
  expect(world.serial.opened).toBe(3)
  expect(world.serial.isOpen('/dev/ttyUSB1')).toBe(false)
  feed('X=64\n')
  expect(report()).toMatchObject({ lastRawC: 64, readings: 1 })
  await stand.close()
})

test('each change of the way is said once', async () => {
  const { world, stand, said } = await setUp()
  world.serial.unplug(PATH)
  for (let i = 0; i < 10; i++) {
    world.clock.advance(2000)
    await settle()
  }
  expect(said).toHaveLength(3)
  expect(said.at(-1)).toContain('is not there')
  await stand.close()
})

test('a port that stays silent is opened anew, ever more rarely, and stays called silent', async () => {
  const { world, stand, report, feed, said } = await setUp()
  feed('T=70\n')
  const openings = async (seconds: number) => {
    const before = world.serial.opened
    for (let s = 0; s < seconds; s += 5) {
      world.clock.advance(5000)
      await settle()
      await settle()
    }
    return world.serial.opened - before
  }
  expect(await openings(60)).toBe(0)
  expect(await openings(10)).toBe(1)
  expect(report()).toMatchObject({
    state: 'silent',
    sentence: expect.stringContaining('no reading for 70 s'),
  })
  expect(await openings(110)).toBe(0)
  expect(await openings(20)).toBe(1)
  feed('T=71\n')
  expect(report()).toMatchObject({ state: 'ok', lastRawC: 71, readings: 2 })
  expect(said.filter((s) => s.includes('opened anew'))).toHaveLength(2)
  await stand.close()
  expect(world.clock.pending).toBe(0)
})

test('a driver that does not let go of its port holds up neither the other probes nor the end', async () => {
  const { world, stand, said } = await setUp()
  world.serial.hangs.add(PATH)
  const applied = stand.apply([serial({ name: 'wren', path: '/dev/ttyUSB1' })])
  world.clock.advance(2000)
  await applied
  expect(stand.settings.map((s) => s.name)).toEqual(['wren'])
  expect(said).toContain(`heron: its driver does not let go of ${PATH}; it is left as it is`)
  await stand.close()
})

test('a silent port whose driver hangs is opened anew all the same', async () => {
  const { world, stand, feed, samples } = await setUp()
  feed('T=70\n')
  world.serial.hangs.add(PATH)
  world.clock.advance(65_000)
  expect(world.serial.opened).toBe(1)
  world.clock.advance(2000)
  await settle()
  expect(world.serial.opened).toBe(2)
  feed('T=71\n')
  expect(samples).toHaveLength(2)
  world.serial.hangs.clear()
  await stand.close()
})

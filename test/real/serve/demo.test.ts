import { beforeAll, expect, test } from 'vitest'
import type { PotLive, StoveLive } from '#core/wire/live'
import { HERON } from '../../../server/demo/studio.ts'
import { RED_ON_WOOL } from '../../../server/demo/plans.ts'
import { buildProgram, Program } from '../../kit/program.ts'

beforeAll(buildProgram)

test('the demo’s first look says at which temperature to turn down, to which mark, and what comes of it', async () => {
  const demo = new Program(['demo', '--port', '0', '--log', 'error'])
  await demo.start(/ready http\S+/)
  try {
    const url = /ready (http\S+)/.exec(demo.output)![1]!
    const heron = async (): Promise<PotLive> => {
      const stove = (await (await fetch(`${url}/api/stove`)).json()) as StoveLive
      return stove.pots.find((pot) => pot.potId === HERON.probe)!
    }
    // The burners are learned from the record as soon as the server is up.
    await expect.poll(async () => (await heron()).advice?.isGuess, { timeout: 30_000 }).toBe(false)
    const { advice, tempC } = await heron()
    const dial = advice!.dial!
    if (dial.kind !== 'heat-up') throw new Error(`expected heat-up, got ${dial.kind}`)
    const hold = RED_ON_WOOL.stages.find((stage) => stage.id === 'dye')!
    const [lowC, highC] = hold.kind === 'hold' ? hold.windowC : [NaN, NaN]
    expect(tempC).toBeLessThan(dial.turnDownAtC - 3)
    expect(dial.turnDownAtC).toBeGreaterThan(lowC - 3)
    expect(dial.peakC).toBeGreaterThan(lowC)
    expect(dial.peakC).toBeLessThan(highC)
    // The simulated burner gives what the pot loses at the window's middle at a dial of about 2.
    expect(Math.abs(dial.holdDial - 2)).toBeLessThanOrEqual(0.2)
    const [leastC, mostC] = dial.holdsC
    expect(mostC - leastC).toBeLessThan(8)
    expect(leastC).toBeLessThan((lowC + highC) / 2)
    expect(mostC).toBeGreaterThan((lowC + highC) / 2)
  } finally {
    await demo.stop()
  }
})

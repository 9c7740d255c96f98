import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { startStove, stepStove } from '#core/watch/stove'
import type { StoveInput } from '#core/watch/stove-input'
import { seeded } from '../../kit/seeded.ts'
import { at, hold, plan } from '../../kit/watch-day.ts'

const POTS = ['heron', 'wren']
const WORDS = ['goods-in', 'goods-out', 'stir', 'top-up', 'lid-on', 'lid-off'] as const

const wordEvent = (word: (typeof WORDS)[number]) =>
  word === 'lid-on'
    ? ({ kind: 'lid', lid: 'on' } as const)
    : word === 'lid-off'
      ? ({ kind: 'lid', lid: 'off' } as const)
      : ({ kind: word } as const)

/** Twelve minutes at one or two pots: heated, held, left; with notes, slips, silence and a probe that moves. */
function someDay(seed: number): readonly StoveInput[] {
  const random = seeded(seed)
  const pots = POTS.slice(0, random.next() < 0.4 ? 1 : 2)
  const startMs = at('08:00')
  const dyePlan = plan(hold({ windowC: [60, 66], ceilingC: 70, holdMin: 5 }), {
    kind: 'cool',
    id: 'cool',
    title: 'Cool',
    coolToC: 40,
    additives: [],
  })
  const inputs: StoveInput[] = pots.flatMap((potId, i): StoveInput[] => [
    { kind: 'pot', atMs: startMs, potId, pot: { title: potId, vessel: null, lagS: null } },
    { kind: 'assign', atMs: startMs, probe: potId, potId, use: 'on' },
    { kind: 'batch', atMs: startMs, potId, batchId: i, plan: dyePlan, dryWeightG: 400 },
    { kind: 'event', atMs: startMs, potId, event: { kind: 'stage', stageId: 'dye' } },
  ])
  const level = new Map(pots.map((potId) => [potId, random.between(50, 62)]))
  for (let s = 1; s < 700; s += 1) {
    const atMs = startMs + s * 1000
    if (s === 550) for (const potId of pots) inputs.push(stage(potId, atMs, 'cool'))
    for (const potId of pots) {
      const now = level.get(potId)! + random.between(-0.02, s < 300 ? 0.06 : 0.02)
      level.set(potId, now)
      const tempC = random.next() < 0.005 ? now + 8 : Math.round(now * 16) / 16
      const isHeard = random.next() > 0.02 && !(s > 400 && s < 490)
      if (isHeard) inputs.push(read(potId, atMs, tempC))
      if (random.next() < 0.004)
        inputs.push({ kind: 'event', atMs, potId, event: wordEvent(random.pick(WORDS)) })
      if (random.next() < 0.003)
        inputs.push({ kind: 'event', atMs, potId, event: { kind: 'dial', dial: random.pick([0, 3, 9]) } })
    }
    inputs.push({ kind: 'tick', atMs })
  }
  return inputs
}

const stage = (potId: string, atMs: number, stageId: string): StoveInput => {
  return { kind: 'event', atMs, potId, event: { kind: 'stage', stageId } }
}
const read = (probe: string, atMs: number, tempC: number): StoveInput => {
  const reading = { kind: 'temp', probe, atMs, rawC: tempC, tempC, verdict: 'good' } as const
  return { kind: 'reading', atMs, reading }
}

test('the watch goes on the same from a copy of its state, whenever that is taken', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1_000_000 }), (seed) => {
      const day = someDay(seed)
      // A copy now and then, at all kinds of moments.
      const broken = day.reduce(
        (state, input, i) => stepStove(i % 53 === 0 ? structuredClone(state) : state, input).state,
        startStove({}),
      )
      const unbroken = day.reduce((state, input) => stepStove(state, input).state, startStove({}))
      expect(broken).toEqual(unbroken)
    }),
    { numRuns: 3 },
  )
})

import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { HoldBins } from '#core/plan/outcome'
import { stageOutcomes } from '#core/watch/stove'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const LOW = 60
const HIGH = 70
const CEILING = 75
const STAGE = hold({ windowC: [LOW, HIGH], ceilingC: CEILING, holdMin: 20 })

/** One stretch of a made-up day: so long, to this temperature, read this often; or no readings at all. */
const leg = fc.record({
  forS: fc.integer({ min: 5, max: 900 }),
  toC: fc.double({ min: 40, max: 90, noNaN: true }),
  everyS: fc.integer({ min: 1, max: 75 }),
  silent: fc.boolean(),
  word: fc.constantFrom('', '', '', 'goods-out', 'goods-in', 'dial:4', 'dial:0', 'stir', 'lid:off'),
})
type Leg = { forS: number; toC: number; everyS: number; silent: boolean; word: string }

interface Sample {
  readonly s: number
  readonly tempC: number
}

/** The day as samples and goods changes, slow enough that no rule takes the probe for lifted out. */
function dayOf(legs: readonly Leg[]): {
  samples: Sample[]
  words: { s: number; word: string }[]
  endS: number
} {
  const samples: Sample[] = [{ s: 0, tempC: 65 }]
  const words: { s: number; word: string }[] = []
  let s = 0
  let tempC = 65
  for (const { forS, toC, everyS, silent, word } of legs) {
    if (word !== '') words.push({ s, word })
    const mostC = (forS / 60) * 2
    const goalC = tempC + Math.max(-mostC, Math.min(mostC, toC - tempC))
    const readUntilS = silent ? 0 : forS
    for (let t = everyS; t < readUntilS; t += everyS)
      samples.push({ s: s + t, tempC: tempC + ((goalC - tempC) * t) / forS })
    s += forS
    tempC = goalC
    samples.push({ s, tempC })
  }
  return { samples, words, endS: s }
}

function watched(legs: readonly Leg[]): WatchDay {
  const { samples, words, endS } = dayOf(legs)
  const day = new WatchDay().pot('heron', '08:00').batch('heron', '08:00', plan(STAGE), true)
  day.note('heron', '08:00', 'stage:dye')
  const startMs = at('08:00')
  const inputs = [
    ...words.map(({ s, word }) => ({ s, order: 0, run: () => noteAt(day, startMs + s * 1000, word) })),
    ...samples.map(({ s, tempC }) => ({
      s,
      order: 1,
      run: () => day.read('heron', startMs + s * 1000, tempC),
    })),
  ]
  for (const input of inputs.sort((a, b) => a.s - b.s || a.order - b.order)) input.run()
  return day.tickUntil(startMs + endS * 1000)
}

function noteAt(day: WatchDay, atMs: number, word: string): unknown {
  const clock = new Date(atMs).toISOString().slice(11, 19)
  return day.note('heron', clock, word)
}

/**
 * The bins by the words of docs/watch.md alone, in steps of half a second and without any of the watch's
 * code: a second definition, slow and plain.
 */
function naiveBins(
  legs: readonly Leg[],
): Record<'in' | 'above' | 'below' | 'ceiling' | 'unknown' | 'out', number> {
  const { samples, words, endS } = dayOf(legs)
  const STEP = 0.5
  const kinds: string[] = []
  let i = 1
  for (let k = 0; k < Math.round(endS / STEP); k++) {
    const s = (k + 0.5) * STEP
    while (i < samples.length - 1 && samples[i]!.s < s) i++
    const [a, b] = [samples[i - 1]!, samples[i]!]
    const goods = words.findLast((w) => w.s <= s && w.word.startsWith('goods'))?.word !== 'goods-out'
    const tempC = a.tempC + ((b.tempC - a.tempC) * (s - a.s)) / (b.s - a.s)
    if (b.s - a.s > 60) kinds.push('unknown')
    else if (!goods) kinds.push('out')
    else if (tempC < LOW) kinds.push('below')
    else if (tempC <= HIGH) kinds.push('in')
    else kinds.push(tempC > CEILING ? 'ceiling' : 'above')
  }
  const start = kinds.findIndex(
    (kind, k) => kind === 'in' && kinds[k - 1] !== 'in' && staysIn(kinds, k, 180 / STEP),
  )
  const bins = { in: 0, above: 0, below: 0, ceiling: 0, unknown: 0, out: 0 }
  if (start >= 0) for (const kind of kinds.slice(start)) bins[kind as keyof typeof bins] += STEP
  return bins
}

function staysIn(kinds: readonly string[], from: number, count: number): boolean {
  const rest = kinds.slice(from).filter((kind) => kind !== 'unknown')
  const left = rest.findIndex((kind) => kind !== 'in')
  return (left < 0 ? rest.length : left) >= count
}

const legs = fc.array(leg, { minLength: 1, maxLength: 9 })
const sum = (b: HoldBins) =>
  b.inWindowS + b.aboveWindowS + b.belowWindowS + b.aboveCeilingS + b.unknownS + b.goodsOutS

test('the bins always sum to the time since the hold began', () => {
  fc.assert(
    fc.property(legs, (day) => {
      const { state } = watched(day)
      const [outcome] = stageOutcomes(state, 'heron')
      const began = state.pots['heron']!.run!.trace.clock!.beganMs
      const elapsedS = began === null ? 0 : (outcome!.endedMs - began) / 1000
      expect(sum(outcome!.bins!)).toBeCloseTo(elapsedS, 6)
    }),
    { numRuns: 12, seed: 41 },
  )
})

test('the bins are those of a second, plain definition', () => {
  fc.assert(
    fc.property(legs, (day) => {
      const bins = stageOutcomes(watched(day).state, 'heron')[0]!.bins!
      const naive = naiveBins(day)
      const found = [
        bins.inWindowS,
        bins.aboveWindowS,
        bins.belowWindowS,
        bins.aboveCeilingS,
        bins.unknownS,
        bins.goodsOutS,
      ]
      const wanted = [naive.in, naive.above, naive.below, naive.ceiling, naive.unknown, naive.out]
      for (const [i, s] of found.entries()) expect(Math.abs(s - wanted[i]!)).toBeLessThanOrEqual(4)
    }),
    { numRuns: 20, seed: 42 },
  )
})

test('no alarm is raised twice without clearing, and none clears that was not raised', () => {
  fc.assert(
    fc.property(legs, (day) => {
      const standing = new Set<string>()
      const wrong: string[] = []
      for (const { alarm, change } of watched(day).alarms()) {
        if (standing.has(alarm) === (change === 'raised')) wrong.push(`${alarm} ${change}`)
        if (change === 'raised') standing.add(alarm)
        if (change === 'cleared') standing.delete(alarm)
      }
      expect(wrong).toEqual([])
    }),
    { numRuns: 12, seed: 43 },
  )
})

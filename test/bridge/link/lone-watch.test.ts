import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  type LoneEffect,
  type LoneInput,
  startListening,
  stepLoneWatch,
} from '../../../bridge/link/lone-watch.ts'

const T = 1_700_000_000_000
const HERON = { probe: 'heron', pot: 'heron', title: 'Heron', rawC: 71 }

/** Seconds → what comes then. A tick comes each second. */
function run(seconds: number, inputs: Readonly<Record<number, readonly LoneInput[]>>) {
  let state = startListening(T)
  const said: string[] = []
  const take = (input: LoneInput, s: number) => {
    const step = stepLoneWatch(state, input)
    state = step.state
    said.push(...step.effects.map((e) => `${s} ${worded(e)}`))
  }
  for (let s = 0; s <= seconds; s++) {
    for (const input of inputs[s] ?? []) take(input, s)
    take({ kind: 'tick', atMs: T + s * 1000 }, s)
  }
  return said
}

function worded(effect: LoneEffect): string {
  switch (effect.kind) {
    case 'alone':
      return `alone with ${effect.titles.join(' and ')}`
    case 'call':
      return `call ${effect.limit.pot} ${effect.tempC}`
    case 'hush':
      return `hush ${effect.why}`
    default:
      return effect satisfies never
  }
}

const limits: LoneInput = { kind: 'limits', limits: [HERON] }
const heard = (s: number): LoneInput => ({ kind: 'heard', atMs: T + s * 1000 })
const reading = (s: number, tempC: number, probe = 'heron'): LoneInput => ({
  kind: 'reading',
  probe,
  atMs: T + s * 1000,
  tempC,
})
/** A reading a second of this temperature. */
const steady = (fromS: number, toS: number, tempC: number) =>
  Object.fromEntries(
    Array.from({ length: toS - fromS + 1 }, (_, i) => [fromS + i, [reading(fromS + i, tempC)]]),
  )

test('a server silent for a minute while a stage runs: it is said once that nobody watches', () => {
  expect(run(300, { 0: [limits] })).toEqual(['60 alone with Heron'])
})

test('a server that answers keeps the bridge quiet, however hot the bath', () => {
  const inputs = Object.fromEntries(
    Array.from({ length: 200 }, (_, s) => [s, s === 0 ? [limits] : [heard(s), reading(s, 99)]]),
  )
  expect(run(199, inputs)).toEqual([])
})

test('alone and over the ceiling: it calls, again every half minute, and stops when the bath is under it', () => {
  const inputs = { ...steady(1, 119, 71.4), ...steady(120, 200, 70.9), 0: [limits] }
  expect(run(200, inputs)).toEqual([
    '60 alone with Heron',
    '60 call heron 71.4',
    '90 call heron 71.4',
    '120 hush under-limit',
  ])
})

test('the server comes back: the bridge hands over and falls silent', () => {
  const inputs = { ...steady(1, 200, 72), 0: [limits], 75: [heard(75)] }
  expect(run(130, inputs)).toEqual(['60 alone with Heron', '60 call heron 72', '75 hush server-back'])
})

test('one reading over it between others is no call, and neither is one that is half a minute old', () => {
  const lone = { 0: [limits], 59: [reading(59, 70)], 61: [reading(61, 85)], 62: [reading(62, 70)] }
  expect(run(90, lone)).toEqual(['60 alone with Heron'])
  const old = { 0: [limits], 20: [reading(20, 75)], 21: [reading(21, 75)] }
  expect(run(90, old)).toEqual(['60 alone with Heron'])
})

test('exactly at the ceiling is not over it, and no number is no reading', () => {
  const at = { ...steady(1, 100, 71), 0: [limits] }
  expect(run(100, at)).toEqual(['60 alone with Heron'])
  expect(run(100, { ...steady(1, 100, Number.NaN), 0: [limits] })).toEqual(['60 alone with Heron'])
})

test('with nothing to guard there is nothing to say', () => {
  expect(run(600, steady(1, 600, 99))).toEqual([])
})

test('it never calls before the server has been silent for a minute', () => {
  const happens = fc.array(
    fc.record({
      s: fc.integer({ min: 1, max: 200 }),
      tempC: fc.integer({ min: 60, max: 90 }),
      hears: fc.boolean(),
    }),
  )
  fc.assert(
    fc.property(happens, (list) => {
      const inputs: Record<number, LoneInput[]> = { 0: [limits] }
      for (const { s, tempC, hears } of list) (inputs[s] ??= []).push(hears ? heard(s) : reading(s, tempC))
      inputs[0] = [limits]
      const heardAt = [0, ...list.filter((l) => l.hears).map((l) => l.s)]
      const early = run(200, inputs).filter((line) => {
        const s = Number(line.split(' ')[0])
        return !line.includes('server-back') && heardAt.some((h) => h <= s && s - h < 60)
      })
      expect(early).toEqual([])
    }),
  )
})

import { expect, test } from 'vitest'
import { holdDial } from '#core/bath/advise'
import { learnFrom } from '#core/bath/learn'
import {
  EVENING_STEPS,
  type EveningNow,
  type EveningState,
  startEvening,
  stepEvening,
  viewEvening,
} from '#core/bath/learning-evening'
import { guessPot } from '#core/bath/pot-belief'
import type { PotReading } from '#core/bath/pot-reading'
import type { PotEvent } from '#core/bath/pot-trace'
import { DIAL_MAX, labHoldDial, labPot, labReadingC, labStart, labStep } from '../../kit/stove-lab.ts'

/** A dyer who does what the guide says; the guide looks every five minutes. */
function guidedEvening(litres: number, seed: number) {
  const pot = labPot(litres, 'coil', seed)
  const guess = guessPot(pot.vessel)
  const readings: PotReading[] = []
  const events: { atMs: number; event: PotEvent }[] = []
  let lab = labStart(pot, 14)
  let now: EveningNow = { atMs: 0, tempC: 14, belief: guess }
  let state: EveningState = startEvening(guess, 0, 14)
  const steps: string[] = []
  for (let minute = 0; state.kind === 'running'; minute++) {
    const { set } = viewEvening(state, now)
    if (steps.at(-1) !== state.step) {
      steps.push(state.step)
      events.push({ atMs: now.atMs, event: { kind: 'dial', dial: set!.dial } })
      events.push({ atMs: now.atMs, event: { kind: 'lid', lid: set!.lid } })
    }
    for (let s = 0; s < 60; s++) {
      lab = labStep(pot, lab, set!)
      if (s % 5 === 0) readings.push({ atMs: lab.atS * 1000, tempC: labReadingC(pot, lab) })
    }
    const looks = minute % 5 === 4
    const belief = looks ? learnFrom(guess, { readings, events }).belief : now.belief
    now = { atMs: lab.atS * 1000, tempC: labReadingC(pot, lab), belief }
    if (looks || now.tempC > 69) state = stepEvening(state, now)
  }
  return { pot, steps, state, now, minutes: now.atMs / 60_000 }
}

test('the guide leads through its five steps and ends with a dial that holds', () => {
  const { pot, steps, state, now, minutes } = guidedEvening(12, 6)
  expect(steps).toEqual(EVENING_STEPS)
  expect(state.kind).toBe('done')
  expect(minutes).toBeLessThan(270)
  const told = holdDial(now.belief, 70, { lid: 'on', roomC: pot.vessel.surroundingsC! })!
  expect(Math.abs(told.value - labHoldDial(pot, 'on', 70)!) / DIAL_MAX).toBeLessThan(0.03)
})

const BELIEF = guessPot({
  litres: 20,
  surroundingsC: 18,
  burner: { kind: 'coil', dialMax: 10, ratedW: 2000 },
})
const at = (minutes: number, tempC: number): EveningNow => ({ atMs: minutes * 60_000, tempC, belief: BELIEF })

test('it begins with the dial at its top and the lid on', () => {
  const view = viewEvening(startEvening(BELIEF, 0, 14), at(0, 14))
  expect(view.set).toEqual({ dial: 10, lid: 'on' })
  expect(view.stepsDone).toBe(0)
})

test('the time left follows the rise so far', () => {
  const state = startEvening(BELIEF, 0, 14)
  // 1 °C a minute from 14 °C: 70 °C is 36 minutes off at 34 °C.
  expect(viewEvening(state, at(20, 34)).leftMin).toBe(36)
})

test('full goes on to a third of the dial at 70 °C, not before', () => {
  const state = startEvening(BELIEF, 0, 14)
  expect(stepEvening(state, at(55, 69.9))).toBe(state)
  expect(stepEvening(state, at(56, 70))).toMatchObject({ step: 'middle', dial: 3.5 })
})

test('a step ends at its longest time even when little was learned', () => {
  const state = startEvening(BELIEF, 0, 14)
  expect(stepEvening(state, at(119, 20))).toBe(state)
  expect(stepEvening(state, at(120, 20))).toMatchObject({ step: 'middle' })
})

test('once done it stays done', () => {
  const done: EveningState = { kind: 'done', atMs: 5 }
  expect(stepEvening(done, at(400, 40))).toBe(done)
  expect(viewEvening(done, at(400, 40)).set).toBeNull()
})

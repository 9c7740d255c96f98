import { holdDial } from '#core/bath/advise'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import type { PotReading } from '#core/bath/pot-reading'
import type { PotEvent, PotTrace } from '#core/bath/pot-trace'
import {
  type LabPot,
  labReadingC,
  type LabSetting,
  labStart,
  type LabState,
  labStep,
  labWaterC,
} from './stove-lab.ts'

/** One thing to do at the pot: set dial and lid, then wait for minutes or until the probe shows a temperature. */
export interface Doing {
  readonly dial?: number
  readonly lid?: 'on' | 'off'
  readonly minutes: number
  /** Goes on to the next thing as soon as the probe is here (heating). */
  readonly untilC?: number
  /** Goes on as soon as the probe has fallen to here. */
  readonly downToC?: number
}

export interface Evening {
  readonly trace: PotTrace
  readonly end: LabState
  readonly setting: LabSetting
  /** True temperature of the water, every ten seconds. */
  readonly truth: readonly PotReading[]
}

/** Does things at a lab pot one after the other and keeps what the probe and the notes say. A reading every 2 s. */
export function evening(
  pot: LabPot,
  doings: readonly Doing[],
  from = labStart(pot, pot.random.between(11, 16)),
): Evening {
  const readings: PotReading[] = []
  const events: { atMs: number; event: PotEvent }[] = []
  const truth: PotReading[] = []
  let state = from
  let setting: LabSetting = { dial: 0, lid: 'on' }
  for (const doing of doings) {
    const atMs = state.atS * 1000
    if (doing.dial !== undefined) events.push({ atMs, event: { kind: 'dial', dial: doing.dial } })
    if (doing.lid !== undefined) events.push({ atMs, event: { kind: 'lid', lid: doing.lid } })
    setting = { dial: doing.dial ?? setting.dial, lid: doing.lid ?? setting.lid }
    for (let s = 0; s < doing.minutes * 60; s++) {
      state = labStep(pot, state, setting)
      if (state.atS % 10 === 0) truth.push({ atMs: state.atS * 1000, tempC: labWaterC(state) })
      if (state.atS % 2 !== 0) continue
      const tempC = labReadingC(pot, state)
      readings.push({ atMs: state.atS * 1000, tempC })
      if (tempC >= (doing.untilC ?? Number.POSITIVE_INFINITY)) break
      if (tempC <= (doing.downToC ?? Number.NEGATIVE_INFINITY)) break
    }
  }
  return { trace: { readings, events }, end: state, setting, truth }
}

/** The guided evening with plain water: full, half-way, the dial that should hold, off, lid off. */
export function learningEvening(pot: LabPot): Evening {
  const start = labStart(pot, pot.random.between(11, 16))
  const rising: readonly Doing[] = [
    { dial: 10, lid: 'on', minutes: 90, untilC: 70 },
    { dial: 3.5, minutes: 30, untilC: 82 },
  ]
  const full = evening(pot, rising, start)
  const learned = learnFrom(guessPot(pot.vessel), full.trace).belief
  const guess = holdDial(learned, labWaterC(full.end), { lid: 'on', roomC: pot.vessel.surroundingsC! })
  const low = Math.max(0.5, Math.round(2 * (guess?.value ?? 2)) / 2)
  const rest = evening(
    pot,
    [
      { dial: low, lid: 'on', minutes: 40 },
      { dial: 0, minutes: 75 },
      { lid: 'off', minutes: 30 },
    ],
    full.end,
  )
  return {
    ...rest,
    truth: [...full.truth, ...rest.truth],
    trace: {
      readings: [...full.trace.readings, ...rest.trace.readings],
      events: [...full.trace.events, ...rest.trace.events],
    },
  }
}

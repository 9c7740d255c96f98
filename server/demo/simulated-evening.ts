import { learnFrom } from '#core/bath/learn'
import { startEvening, stepEvening, viewEvening } from '#core/bath/learning-evening'
import { guessPot, type PotBelief } from '#core/bath/pot-belief'
import type { PotReading } from '#core/bath/pot-reading'
import type { PotEvent } from '#core/bath/pot-trace'
import { probeC, stepPot } from '#core/bath/simulated-pot'
import type { BathEvent } from '#core/plan/event'
import { type DemoPot, filledPot } from './studio.ts'

/** An evening with plain water as the record would have kept it. Times in ms from its begin. */
export interface SimulatedEvening {
  readonly readings: readonly PotReading[]
  readonly events: readonly { readonly atMs: number; readonly event: BathEvent & PotEvent }[]
  readonly lengthMs: number
  /** What it taught: the last step ends with a look. */
  readonly belief: PotBelief
}

const PERIOD_S = 10
/** The guide looks at what was learned this often; each look is a fit. */
const LOOK_S = 20 * 60
/** From the cold tap, °C. */
const FILL_C = 14

/** Lets the invented dyer do what the guided evening says, at a simulated pot. */
export function simulateEvening(demo: DemoPot, random: () => number): SimulatedEvening {
  const begun = guessPot(demo.vessel)
  const readings: PotReading[] = []
  const events: SimulatedEvening['events'][number][] = []
  let pot = filledPot(demo, FILL_C)
  let now = { atMs: 0, tempC: FILL_C, belief: begun }
  let state = startEvening(begun, 0, FILL_C)
  let step: string | null = null
  while (state.kind === 'running') {
    const { dial, lid } = viewEvening(state, now).set!
    if (state.step !== step)
      events.push(
        { atMs: now.atMs, event: { kind: 'dial', dial } },
        { atMs: now.atMs, event: { kind: 'lid', lid } },
      )
    step = state.step
    pot = stepPot(pot, PERIOD_S, { dial, lid })
    const atMs = now.atMs + PERIOD_S * 1000
    const tempC = probeC(pot, random)
    readings.push({ atMs, tempC })
    const isLook = (atMs / 1000) % LOOK_S === 0 || stepEvening(state, { ...now, atMs, tempC }) !== state
    const belief = isLook ? learnFrom(begun, { readings, events }).belief : now.belief
    now = { atMs, tempC, belief }
    state = stepEvening(state, now)
  }
  return { readings, events, lengthMs: now.atMs, belief: now.belief }
}

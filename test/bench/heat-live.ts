import { holdDial } from '#core/bath/advise'
import { faded } from '#core/bath/evidence'
import { startOf } from '#core/bath/forecast'
import { planHeatUp } from '#core/bath/heat-up'
import type { PotBelief } from '#core/bath/pot-belief'
import { potModel, tuned } from '#core/bath/pot-model'
import { evening } from '../kit/stove-evening.ts'
import { DIAL_MAX, type LabPot, labStart } from '../kit/stove-lab.ts'
import type { Note } from './heat-rich.ts'

/** Readings come every two seconds; the rate is seen over so many of them. */
const SEEN = 90

/** What is told on another day while a bath comes up, 10 °C under its target, and what comes of following it. */
export function judgeLive(pot: LabPot, learned: PotBelief, targetC: number, note: Note): void {
  const belief = faded(learned)
  const standing = { lid: 'on', roomC: pot.vessel.surroundingsC! } as const
  const hold = holdDial(belief, targetC, standing)
  const way = evening(
    pot,
    [{ dial: DIAL_MAX, lid: 'on', minutes: 720, untilC: targetC - 10 }],
    labStart(pot, 14),
  )
  const bath = seenAt(way.trace.readings.slice(-SEEN).map(({ tempC }) => tempC))
  if (hold === null || bath.waterC < targetC - 11) return
  const course = { dial: DIAL_MAX, ...standing }
  const start = startOf(tuned(potModel(belief.vessel), belief.mean), bath, course)
  const plan = planHeatUp(belief, start, targetC, { heat: DIAL_MAX, hold: hold.value }, standing)
  if (plan === null) return
  const rest = evening(
    pot,
    [
      { dial: DIAL_MAX, lid: 'on', minutes: 300, untilC: plan.turnDownAtC },
      { dial: hold.value, minutes: 120 },
    ],
    way.end,
  )
  const turnedMs = rest.trace.events.at(-1)!.atMs
  const after = rest.truth.filter(({ atMs }) => atMs >= turnedMs)
  const peakC = Math.max(...after.map(({ tempC }) => tempC))
  note('1b told 10 °C under the target: peak error, °C', Math.abs(peakC - plan.peakC))
  note(
    '1b told 10 °C under the target: two hours later off it by °C',
    Math.abs(after.at(-1)!.tempC - targetC),
  )
}

/** Mean and rate of the last readings, brought to their end. */
function seenAt(temps: readonly number[]) {
  const third = Math.floor(temps.length / 3)
  const rateCPerMin = (mean(temps.slice(-third)) - mean(temps.slice(0, third))) / ((2 * third * 2) / 60)
  return { waterC: mean(temps.slice(-third)) + (rateCPerMin * third) / 60, rateCPerMin }
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

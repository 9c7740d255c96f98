import { holdDial, steadyC } from '#core/bath/advise'
import { fitCooling } from '#core/bath/cooling'
import { reachesC } from '#core/bath/cooling-arrival'
import { learnFrom } from '#core/bath/learn'
import { guessPot, type PotBelief } from '#core/bath/pot-belief'
import type { BurnerKind, Vessel } from '#core/bath/vessel'
import { RichEvening, richLearningEvening } from '../kit/rich-evening.ts'
import { RichPot, type RichPotSetup } from '../kit/rich-pot.ts'
import { seeded } from '../kit/seeded.ts'

/** Keeps one figure under a name. */
export type Note = (name: string, value: number) => void

/** A second family of pots (test/kit/rich-pot.ts): a straight dial, draughts, layers, other formulas. */
export function judgeRichPot(litres: number, kind: BurnerKind, seed: number, note: Note): void {
  const random = seeded(seed * 31 + litres * 7 + kind.length)
  const roomC = random.between(15, 23)
  const setup: RichPotSetup = {
    litres,
    burner: kind,
    seed: seed * 17 + litres,
    quantumC: random.pick([0.0625, 0.1]),
    probeLagS: random.between(6, 20),
    startC: random.between(11, 17),
  }
  const { ratedW } = new RichPot(setup)
  const vessel: Vessel = {
    litres: Math.round(litres * random.between(0.97, 1.03) * 10) / 10,
    surroundingsC: Math.round(roomC),
    burner: { kind, dialMax: 10, ratedW: Math.round(ratedW / 100) * 100 },
  }
  const evening = richLearningEvening(setup, vessel, roomC)
  judgeHold(evening, learnFrom(guessPot(vessel), evening.trace).belief, note)
  for (const draughts of [0.03, 0.08])
    for (const lid of ['on', 'off'] as const)
      judgeCooling({ ...setup, draughts, startC: 82 }, lid, roomC, note)
}

function judgeHold({ pot, roomC }: RichEvening, belief: PotBelief, note: Note): void {
  const settles = (lid: 'on' | 'off', dial: number) =>
    bisect(roomC - 1, 99.9, (c) => pot.calmLossW(c, lid, roomC) - pot.settledHeatW(dial / 10))
  for (const lid of ['on', 'off'] as const)
    for (const targetC of [68, 84]) {
      const standing = { lid, roomC: belief.vessel.surroundingsC! }
      const truly = (10 * pot.calmLossW(targetC, lid, roomC)) / pot.settledHeatW(1)
      const hold = holdDial(belief, targetC, standing)
      if (hold === null || truly > 10) continue
      note('3 rich pots, one evening: hold dial error, % of full scale', 10 * Math.abs(hold.value - truly))
      note(
        '3 rich pots, one evening: hold dial range holds the truth',
        inside(hold.low90, truly, hold.high90),
      )
      note(
        '3 rich pots, one evening: settled temperature error, °C',
        Math.abs(settles(lid, hold.value) - targetC),
      )
      for (const dial of [1, 2, 3, 4]) {
        const told = steadyC(belief, dial, standing)
        const truth = settles(lid, dial)
        if (truth < 95 && told.value < 95)
          note(
            '3 rich pots, one evening: settled temperature range holds the truth',
            inside(told.low90, truth, told.high90),
          )
      }
    }
}

function judgeCooling(setup: RichPotSetup, lid: 'on' | 'off', roomC: number, note: Note): void {
  const day = new RichEvening(setup, roomC)
  day.do([{ dial: 0, lid, minutes: 24 * 60, downToC: 38 }])
  const reached = day.truth.find((p) => p.tempC <= 40)
  const nowMs = 3_600_000
  if (reached === undefined || reached.atMs < nowMs + 1_200_000) return
  const surroundingsC = roomC + seeded(setup.seed).between(-2, 2)
  const vessel: Vessel = { litres: setup.litres, burner: { kind: setup.burner, dialMax: 10 } }
  const points = day.trace.readings.filter((p) => p.atMs <= nowMs)
  const fit = fitCooling(points, { vessel, lid, surroundingsC, surroundingsSpreadC: 1.2 })
  const arrival = fit === null ? null : reachesC(fit, 40)
  if (arrival === null) return
  const name = `cool-down of rich pots, draughts ${100 * setup.draughts!} %, lid ${lid}`
  note(
    `${name}: remaining time error, %`,
    100 * Math.abs((arrival.atMs - nowMs) / (reached.atMs - nowMs) - 1),
  )
  note(`${name}: range holds the truth`, inside(arrival.early90Ms, reached.atMs, arrival.late90Ms))
}

export const inside = (low: number, truth: number, high: number): number =>
  truth >= low && truth <= high ? 1 : 0

function bisect(low: number, high: number, f: (x: number) => number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 50; i++) {
    const middle = (a + b) / 2
    if (f(middle) < 0) a = middle
    else b = middle
  }
  return (a + b) / 2
}

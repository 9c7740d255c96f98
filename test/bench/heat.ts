// How well a pot is learned, on pots richer than the model (test/kit/stove-lab.ts). Prints, asserts nothing.
// Repeat: npm run bench:heat
import { cpus } from 'node:os'
import { heatDial, holdDial, steadyC } from '#core/bath/advise'
import { faded } from '#core/bath/evidence'
import { forecastBath } from '#core/bath/forecast'
import { coldPot, planHeatUp } from '#core/bath/heat-up'
import { learnFrom } from '#core/bath/learn'
import { guessPot, type PotBelief } from '#core/bath/pot-belief'
import { potModel, tuned } from '#core/bath/pot-model'
import type { PotReading } from '#core/bath/pot-reading'
import type { BurnerKind } from '#core/bath/vessel'
import { type Doing, evening, learningEvening } from '../kit/stove-evening.ts'
import { DIAL_MAX, type LabPot, labHoldDial, labPot, labStart, labSteadyC } from '../kit/stove-lab.ts'
import { cpuMs, judgeCooling } from './heat-cooling.ts'
import { judgeLive } from './heat-live.ts'
import { inside, judgeRichPot } from './heat-rich.ts'

const LITRES = [8, 14, 20, 40, 60]
const KINDS: readonly BurnerKind[] = ['coil', 'plate', 'gas', 'induction']
const SEEDS = Number(process.env['SEEDS'] ?? 3)
/** Added to every seed: for developing on other pots than those of the published figures. */
const BASE = Number(process.env['BASE'] ?? 0)

const lists = new Map<string, number[]>()
const note = (name: string, value: number) => {
  const list = lists.get(name)
  if (list === undefined) lists.set(name, [value])
  else list.push(value)
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!
}

function judge(after: string, pot: LabPot, belief: PotBelief, lid: 'on' | 'off', targetC: number) {
  const standing = { lid, roomC: pot.vessel.surroundingsC! }
  const truly = labHoldDial(pot, lid, targetC)
  const hold = holdDial(belief, targetC, standing)
  if (truly === null || hold === null)
    return note(`${after}: no dial holds (truth ${truly === null}, told ${hold === null})`, 1)
  note(`${after}: hold dial error, % of full scale`, (100 * Math.abs(hold.value - truly)) / DIAL_MAX)
  note(`${after}: hold dial range holds the truth`, inside(hold.low90, truly, hold.high90))
  note(`${after}: hold dial range, % of full scale`, (100 * (hold.high90 - hold.low90)) / DIAL_MAX)
  const offC = Math.abs(labSteadyC(pot, lid, hold.value) - targetC)
  note(`${after}: settled temperature error, °C`, offC)
  note(`${after}: settled temperature within 2 °C`, offC <= 2 ? 1 : 0)
  for (const dial of [1, 2, 3, 4]) {
    const told = steadyC(belief, dial, standing)
    const settles = labSteadyC(pot, lid, dial)
    if (settles < 95 && told.value < 95)
      note(`${after}: settled temperature range holds the truth`, inside(told.low90, settles, told.high90))
  }
  followAdvice(after, pot, belief, standing, targetC, hold.value)
}

function followAdvice(
  after: string,
  pot: LabPot,
  belief: PotBelief,
  standing: { lid: 'on' | 'off'; roomC: number },
  targetC: number,
  holdAt: number,
) {
  const heatAt = heatDial(belief, standing.roomC, standing)
  const model = tuned(potModel(belief.vessel), belief.mean)
  const plan = planHeatUp(
    belief,
    coldPot(model, standing.roomC),
    targetC,
    { heat: heatAt, hold: holdAt },
    standing,
  )
  if (plan === null) return note(`${after}: target not reached by plan`, 1)
  const doings: Doing[] = [
    { dial: heatAt, lid: standing.lid, minutes: 720, untilC: plan.turnDownAtC },
    { dial: holdAt, minutes: 120 },
  ]
  const day = evening(pot, doings, labStart(pot, standing.roomC))
  const turnedMs = day.trace.events.at(-1)!.atMs
  const peakC = Math.max(...day.truth.filter((p) => p.atMs >= turnedMs).map((p) => p.tempC))
  note(`${after}: peak error, °C`, Math.abs(peakC - plan.peakC))
  judgeArrival(after, plan.toTargetS, day.truth, pot, { doings, roomC: standing.roomC, targetC })
  const last = day.truth.at(-1)!.tempC
  note(`${after}: two hours after turning down, off the target by °C`, Math.abs(last - targetC))
  judgeBand(after, belief, { dial: heatAt, ...standing }, { truth: day.truth, turnedMs })
}

function judgeArrival(
  after: string,
  toldS: number | null,
  truth: readonly PotReading[],
  pot: LabPot,
  { doings, roomC, targetC }: { doings: readonly Doing[]; roomC: number; targetC: number },
) {
  const arrived = truth.find((p) => p.tempC >= targetC)
  // One who knows everything of the pot, and of the mains that they wander about their mean.
  const knowing = evening(calm(pot), doings, labStart(pot, roomC)).truth.find((p) => p.tempC >= targetC)
  if (toldS !== null && arrived !== undefined && knowing !== undefined) {
    const offPercent = (s: number) => 100 * Math.abs(s / (arrived.atMs / 1000) - 1)
    note(`${after}: time to target error, %`, offPercent(toldS))
    note(
      `${after}: time to target error of one who knows all but the mains, %`,
      offPercent(knowing.atMs / 1000),
    )
  }
}

/** Does the band of a forecast from cold hold what the bath then does, while the dial stands? */
function judgeBand(
  after: string,
  belief: PotBelief,
  course: { dial: number; lid: 'on' | 'off'; roomC: number },
  day: { truth: readonly PotReading[]; turnedMs: number },
) {
  const t0 = cpuMs()
  const points = forecastBath(belief, { waterC: course.roomC, rateCPerMin: 0, spreadC: 0.3 }, course, {
    untilS: 3600,
    stepS: 60,
  })
  note('one forecast, ms of processor', cpuMs() - t0)
  for (const at of [15, 30, 60]) {
    const seen = day.truth.find((p) => p.atMs >= at * 60_000)!
    if (seen.atMs < day.turnedMs)
      note(`${after}: band holds the truth`, inside(points[at]!.low90C, seen.tempC, points[at]!.high90C))
  }
}

/** The same pot on mains that stand still. */
const calm = (pot: LabPot): LabPot => ({ ...pot, random: { ...pot.random, normal: (mean = 0) => mean } })

/** The same pot seen through a probe of half degrees. */
const coarsely = (pot: LabPot): LabPot => ({ ...pot, physics: { ...pot.physics, probeStepC: 0.5 } })

/** A batch as a dyer runs it: heats full, turns down to a guess, corrects it twice, switches off. */
function batch(pot: LabPot, lid: 'on' | 'off', targetC: number): readonly Doing[] {
  const truly = labHoldDial(pot, lid, targetC) ?? 5
  const guess = () => Math.max(0.5, Math.min(10, Math.round(2 * truly * pot.random.between(0.7, 1.4)) / 2))
  return [
    { dial: 10, lid, minutes: 300, untilC: targetC - 3 },
    { dial: guess(), minutes: 30 },
    { dial: guess(), minutes: 30 },
    { dial: guess(), minutes: 30 },
    { dial: 0, minutes: 240 },
  ]
}

for (const litres of LITRES)
  for (const kind of KINDS)
    for (let seed = 1; seed <= SEEDS; seed++) {
      const pot = labPot(litres, kind, BASE + seed + 100 * litres)
      let belief = guessPot(pot.vessel)
      judge('0 before any trace', pot, belief, 'on', 70)
      const first = learningEvening(pot)
      const t0 = cpuMs()
      belief = learnFrom(belief, first.trace).belief
      note('one fit of an evening, ms of processor', cpuMs() - t0)
      for (const targetC of [68, 84])
        for (const lid of ['on', 'off'] as const) judge('1 after one evening', pot, belief, lid, targetC)
      for (const targetC of [68, 84])
        judgeLive(labPot(litres, kind, BASE + seed + 100 * litres), belief, targetC, note)
      const coarse = coarsely(labPot(litres, kind, BASE + seed + 100 * litres))
      const seen = learnFrom(guessPot(coarse.vessel), learningEvening(coarse).trace).belief
      for (const targetC of [68, 84])
        for (const lid of ['on', 'off'] as const)
          judge('1 after one evening, probe of half degrees', coarse, seen, lid, targetC)
      for (let n = 0; n < 3; n++)
        belief = learnFrom(
          faded(belief),
          evening(pot, batch(pot, n === 1 ? 'off' : 'on', n === 2 ? 84 : 70)).trace,
        ).belief
      for (const targetC of [68, 84])
        for (const lid of ['on', 'off'] as const)
          judge('2 after three batches more', pot, belief, lid, targetC)
      for (const lid of ['on', 'off'] as const) judgeCooling(pot, lid, note)
      judgeRichPot(litres, kind, BASE + seed, note)
    }

const half = evening(labPot(20, 'coil', 5), [
  ...batch(labPot(20, 'coil', 5), 'on', 75),
  { dial: 4, lid: 'on', minutes: 720 },
])
const t0 = cpuMs()
const twelve = half.trace.readings.flatMap((r) =>
  r.atMs < 43_200_000 ? [r, { ...r, atMs: r.atMs + 1000 }] : [],
)
learnFrom(guessPot(labPot(20, 'coil', 5).vessel), { ...half.trace, readings: twelve })
note(`one fit of 12 h at 1 Hz (${twelve.length} readings), ms of processor`, cpuMs() - t0)

console.log(
  `node ${process.version}, ${cpus()[0]?.model ?? 'unknown'}; ${LITRES.length * KINDS.length * SEEDS} pots\n`,
)
console.log(
  `${'figure'.padEnd(70)}${'n'.padStart(6)}${'mean'.padStart(9)}${'median'.padStart(9)}${'90 %'.padStart(9)}${'worst'.padStart(9)}`,
)
for (const [name, values] of [...lists].sort(([a], [b]) => a.localeCompare(b))) {
  const mean = values.reduce((a, b) => a + b, 0) / values.length
  const row = [mean, quantile(values, 0.5), quantile(values, 0.9), quantile(values, 1)]
  console.log(
    `${name.padEnd(70)}${String(values.length).padStart(6)}${row.map((v) => v.toFixed(2).padStart(9)).join('')}`,
  )
}

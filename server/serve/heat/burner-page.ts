import { NINETY } from '#core/bath/forecast'
import { type Ranged, spreadOf, steadyC } from '#core/bath/advise'
import { AT, type PotBelief } from '#core/bath/pot-belief'
import { type Lid, lossW, potModel, powerW, tuned } from '#core/bath/pot-model'
import type { BurnerDial, BurnerPage, BurnerTrace, ForecastRecord } from '#core/wire/burner'
import type { Lesson, TaughtTrace } from '../../store/heat.ts'

/** Spread of a logarithm from which a power is only a guess. */
const GUESS = 0.3
/** Temperatures whose loss is told, °C. */
const LOSSES_AT_C = [50, 60, 70, 80, 90]
/** Forecasts that count as lately. */
const LATELY = 24

type Physics = Pick<
  BurnerPage,
  'capacityKJPerC' | 'storedKJ' | 'elementLagS' | 'dials' | 'losses' | 'roomC' | 'boilingC' | 'burnerKind'
>

/** What is believed of a pot, in figures that a person can check. */
export function burnerPhysics(belief: PotBelief): Physics {
  const model = potModel(belief.vessel)
  const { dialMax, kind } = belief.vessel.burner
  const known = (of: (parameters: readonly number[]) => number) => rangedLog(belief, of)
  const roomC = model.roomC
  return {
    burnerKind: kind ?? null,
    roomC,
    boilingC: model.boilingC,
    capacityKJPerC: known((p) => Math.exp(p[AT.capacity]!) / 1000),
    elementLagS: known((p) => Math.exp(p[AT.elementLag]!)),
    storedKJ: known((p) => (powerW(tuned(model, p), dialMax) * Math.exp(p[AT.elementLag]!)) / 1000),
    dials: dialMarks(dialMax).map((dial) => dialOf(belief, dial, roomC)),
    losses: LOSSES_AT_C.map((tempC) => ({
      tempC,
      lidOnW: known((p) => lossW(tuned(model, p), 'on', roomC, tempC)),
      lidOffW: known((p) => lossW(tuned(model, p), 'off', roomC, tempC)),
    })),
  }
}

function dialOf(belief: PotBelief, dial: number, roomC: number): BurnerDial {
  const model = potModel(belief.vessel)
  const watts = (p: readonly number[]) => powerW(tuned(model, p), dial)
  const settles = (lid: Lid): Ranged | null => {
    const steady = steadyC(belief, dial, { lid, roomC })
    return steady.value >= model.boilingC - 0.5 ? null : steady
  }
  return {
    dial,
    watts: rangedLog(belief, watts),
    steadyLidOnC: settles('on'),
    steadyLidOffC: settles('off'),
    isKnown: spreadOf(belief, (p) => Math.log(watts(p))) < GUESS,
  }
}

/** In the logarithm, as none of these can be below 0. */
function rangedLog(belief: PotBelief, of: (parameters: readonly number[]) => number): Ranged {
  const value = of(belief.mean)
  const half = NINETY * spreadOf(belief, (p) => Math.log(Math.max(1e-9, of(p))))
  return { value, low90: value * Math.exp(-half), high90: value * Math.exp(half) }
}

/** Marks that stand on a dial, about ten; twice as close in its low third, where baths are held. */
function dialMarks(dialMax: number): readonly number[] {
  const step = [0.25, 0.5, 1, 2, 5, 10, 20, 50, 100].find((size) => dialMax / size <= 12) ?? dialMax / 10
  const halves = Array.from(
    { length: Math.floor((2 * dialMax) / step + 1e-9) },
    (_, i) => ((i + 1) * step) / 2,
  )
  const marks = halves.filter((dial, i) => i % 2 === 1 || dial < dialMax / 3)
  return marks.at(-1) === dialMax ? marks : [...marks, dialMax]
}

/** What was learned from, newest first. */
export function burnerTraces(
  taught: readonly TaughtTrace[],
  titles: ReadonlyMap<number, string>,
): readonly BurnerTrace[] {
  return taught.toReversed().map(({ batchId, fromMs, toMs, litres, lesson }) => ({
    batchId,
    title: batchId === null ? null : (titles.get(batchId) ?? null),
    fromMs,
    toMs,
    litres,
    misfitC: lesson?.misfitC ?? null,
    lid: lesson?.lid ?? null,
    why: whyOf(lesson),
  }))
}

function whyOf(lesson: Lesson | null): BurnerTrace['why'] {
  if (lesson === null) return 'no-dial'
  if (lesson.misfitC === null) return 'too-short'
  return lesson.isLike === false ? 'unlike' : 'learned'
}

/** The newest forecasts with what came, newest first; a change of the burner makes those before it a guess's. */
export function forecastRecord(taught: readonly TaughtTrace[]): readonly ForecastRecord[] {
  return taught
    .flatMap(({ batchId, lesson }) =>
      (lesson?.claims ?? []).map(({ fromTraces, source = 'replayed', ...claim }) =>
        Object.assign({ batchId, isGuess: fromTraces === 0, source }, claim),
      ),
    )
    .sort((a, b) => b.madeMs - a.madeMs)
    .slice(0, LATELY)
}

import type { CoolingFit } from './cooling.ts'
import { fromHere } from './cooling.ts'
import { reachesC } from './cooling-arrival.ts'
import { coolingBand } from './cooling-band.ts'
import { EVAPORATES } from './cooling-law.ts'
import type { Course } from './course.ts'
import { type BathNow, forecastBath, type ForecastPoint, reachesS } from './forecast.ts'
import { observeRate, rateSurprise } from './observe.ts'
import { AT, guessPot, type PotBelief } from './pot-belief.ts'
import { type Lid, lossW, potModel, tuned } from './pot-model.ts'
import type { Vessel } from './vessel.ts'

/** What the bath is to come to. */
export type Goal =
  | { readonly kind: 'window'; readonly lowC: number; readonly highC: number }
  | { readonly kind: 'cool'; readonly coolToC: number }
  | { readonly kind: 'none' }

export interface ForecastAsk {
  readonly atMs: number
  /** What was learned of this pot, or `guessOf` its vessel. */
  readonly belief: PotBelief
  readonly bath: BathNow
  /** As last noted; `null` when nothing was noted: then the present heat is taken to go on. */
  readonly dial: number | null
  readonly lid: Lid | null
  /** Since when dial and lid stand as they do, Unix ms; `null` when unknown. */
  readonly settledSinceMs: number | null
  /** The air, °C, where it is measured. */
  readonly roomC?: number
  readonly goal: Goal
  /** The fit of the running cool-down; better than the pot's history once it has seen some twenty minutes. */
  readonly cooling?: CoolingFit | null
}

export interface PotForecast {
  /** `null` also for a bath that is in its window: it has nothing left to reach. */
  readonly reachesWindowMs: number | null
  /** `null` for a bath that is not in it, or that stays. */
  readonly leavesWindowMs: number | null
  readonly reachesCoolToMs: number | null
  readonly reachesCoolTo90Ms: readonly [early: number, late: number] | null
  /** The highest the bath will be from now on if nothing is touched, °C. */
  readonly peakC: number | null
  /** [Unix ms, low, high] */
  readonly band90C: readonly (readonly [atMs: number, lowC: number, highC: number])[]
}

/** A pot of which nothing is known is taken for one of twenty litres, with all the doubt that this brings. */
export function guessOf(vessel: Vessel | null): PotBelief {
  if (vessel !== null) return guessPot(vessel)
  return doubted(guessPot(UNKNOWN), AT.capacity, UNKNOWN_SPREAD)
}

const UNKNOWN: Vessel = { litres: 20, burner: { dialMax: 10 } }

/** Spread of the logarithm of litres that nobody has told (8…60 L lie within two of it). */
const UNKNOWN_SPREAD = 0.5

/** Where neither a trace nor a word tells of the lid, the pot may be open. */
function withAnyLid(belief: PotBelief, lid: Lid | null): PotBelief {
  if (lid !== null || belief.traces > 0) return belief
  const place = AT.evaporationOn
  const mean = belief.mean.map((value, i) => (i === place ? Math.log(EVAPORATES.unknown.share) : value))
  return doubted({ ...belief, mean }, place, EVAPORATES.unknown.spread)
}

const doubted = (belief: PotBelief, place: number, spread: number): PotBelief => ({
  ...belief,
  covariance: belief.covariance.map((row, i) =>
    row.map((value, j) => (i === place && j === place ? spread ** 2 : value)),
  ),
})

const HOURS = { window: 6, cool: 24, none: 3 } as const
const STEPS = 144

/** The way of the bath if dial and lid stay as they are, and when it comes to where it is to be. */
export function forecastPot(asked: ForecastAsk): PotForecast {
  const ask = { ...asked, belief: withAnyLid(asked.belief, asked.lid) }
  const points = pointsOf(ask)
  const temps = points.map((point) => point.tempC)
  const { boilingC } = potModel(ask.belief.vessel)
  const at = (afterS: number | null) => (afterS === null ? null : Math.round(ask.atMs + afterS * 1000))
  return {
    ...windowTimes(ask, points, temps, at),
    ...coolTimes(ask, points, temps, at),
    peakC: temps.length === 0 ? null : Math.max(...temps),
    band90C: points.map((point) => {
      const [lowC, highC] = [point.low90C, point.high90C].map((tempC) => Math.min(tempC, boilingC))
      return [at(point.afterS)!, lowC!, highC!] as const
    }),
  }
}

type At = (afterS: number | null) => number | null

function pointsOf(ask: ForecastAsk): readonly ForecastPoint[] {
  const untilS = HOURS[ask.goal.kind] * 3600
  const stepS = untilS / STEPS
  const running = runningCooling(ask)
  if (running !== null) return coolingBand(running, stepS, STEPS)
  const course = courseOf(ask)
  const belief =
    isWarm(ask) && course.intoW === undefined ? observeRate(ask.belief, ask.bath, course) : ask.belief
  return forecastBath(belief, ask.bath, course, { untilS, stepS })
}

/** Dial and lid have stood long enough for the rate to speak of them. */
function isWarm({ settledSinceMs, atMs, belief }: ForecastAsk): boolean {
  if (settledSinceMs === null) return false
  const { elementLagS } = tuned(potModel(belief.vessel), belief.mean)
  return (atMs - settledSinceMs) / 1000 > Math.max(300, 3 * elementLagS)
}

/** The fit of the running cool-down from here on; `null` when there is none to go by. */
function runningCooling({ goal, cooling, atMs, bath }: ForecastAsk): CoolingFit | null {
  if (goal.kind !== 'cool' || cooling === null || cooling === undefined) return null
  const minutes = (cooling.toMs - cooling.fromMs) / 60_000
  if (cooling.verdict === 'needs-heat' || minutes < 20) return null
  return fromHere(cooling, atMs, bath.waterC)
}

/** Standard deviations from which the dial is taken for noted wrongly, and the present heat to go on instead. */
const NOT_THIS_DIAL = 4

function courseOf(ask: ForecastAsk): Course {
  const roomC = ask.roomC ?? ask.belief.vessel.surroundingsC ?? 20
  const course: Course = { dial: ask.dial ?? 0, lid: ask.lid ?? 'on', roomC }
  const isNoted = ask.dial !== null || ask.goal.kind === 'cool'
  const fits = !isWarm(ask) || Math.abs(rateSurprise(ask.belief, ask.bath, course)) < NOT_THIS_DIAL
  if (isNoted && fits) return course
  const pot = tuned(potModel(ask.belief.vessel), ask.belief.mean)
  const risingW = (pot.capacityJPerC * ask.bath.rateCPerMin) / 60
  return { ...course, intoW: Math.max(0, risingW + lossW(pot, course.lid, roomC, ask.bath.waterC)) }
}

function windowTimes(ask: ForecastAsk, points: readonly ForecastPoint[], temps: readonly number[], at: At) {
  if (ask.goal.kind !== 'window') return { reachesWindowMs: null, leavesWindowMs: null }
  const { lowC, highC } = ask.goal
  const now = ask.bath.waterC
  if (now < lowC) return { reachesWindowMs: at(reachesS(points, temps, lowC)), leavesWindowMs: null }
  if (now > highC) return { reachesWindowMs: at(reachesS(points, temps, highC)), leavesWindowMs: null }
  return { reachesWindowMs: null, leavesWindowMs: at(leavesS(points, temps, lowC, highC)) }
}

/** When a course that begins in the window first leaves it. A bound counts as in. */
function leavesS(
  points: readonly ForecastPoint[],
  temps: readonly number[],
  lowC: number,
  highC: number,
): number | null {
  const out = temps.findIndex((tempC) => tempC > highC || tempC < lowC)
  if (out < 1) return null
  const bound = temps[out]! > highC ? highC : lowC
  return reachesS(points.slice(out - 1), temps.slice(out - 1), bound)
}

function coolTimes(ask: ForecastAsk, points: readonly ForecastPoint[], temps: readonly number[], at: At) {
  const never = { reachesCoolToMs: null, reachesCoolTo90Ms: null }
  if (ask.goal.kind !== 'cool') return never
  const { coolToC } = ask.goal
  if (ask.bath.waterC <= coolToC)
    return { reachesCoolToMs: ask.atMs, reachesCoolTo90Ms: [ask.atMs, ask.atMs] as const }
  const running = runningCooling(ask)
  if (running !== null) {
    const arrival = reachesC(running, coolToC)
    if (arrival === null) return never
    const { atMs, early90Ms, late90Ms } = arrival
    return {
      reachesCoolToMs: Math.round(atMs),
      reachesCoolTo90Ms: [Math.round(early90Ms), Math.round(late90Ms)] as const,
    }
  }
  const when = (values: readonly number[]) => at(reachesS(points, values, coolToC))
  const mean = when(temps)
  const early = when(points.map((point) => point.low90C))
  const late = when(points.map((point) => point.high90C))
  if (mean === null) return never
  return {
    reachesCoolToMs: mean,
    reachesCoolTo90Ms: early === null || late === null ? null : ([early, late] as const),
  }
}

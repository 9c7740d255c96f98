import type { Stage } from '../plan/plan.ts'
import { type Course, rateOver } from './course.ts'
import { bathOf } from './estimate.ts'
import type { PotState } from './pot-state.ts'
import { type ProbeSense, lagOf } from './probe-sense.ts'
import type { StageRun } from './stage-run.ts'

/** A pot at one moment, as the rules look at it. Temperatures are estimates of the bath, °C. */
export interface PotView {
  readonly atMs: number
  readonly pot: PotState
  readonly run: StageRun | null
  readonly stage: Stage | null
  /** The probe that governs; `null` when none hangs in the pot. */
  readonly probe: ProbeSense | null
  /** `null` while nothing can be said: no fresh reading, or the probe is not in the bath. */
  readonly tempC: number | null
  /** The hottest of all probes in the pot; governs the ceiling. */
  readonly hottestC: number | null
  /** Over the last three minutes, °C/min. */
  readonly rateCPerMin: number | null
  readonly course: Course
  readonly dial: number | null
}

/** An estimate older than this says nothing of the bath now (the same 60 s that make a gap). */
const STALE_MS = 60_000
/** So near to the reading the reading itself stands: a bath held on a bound is then exactly on it. */
const SAME_C = 0.01

export function viewOf(pot: PotState, atMs: number): PotView {
  const probe = governing(pot, atMs)
  const temps = pot.probes.map((p) => bathTempAt(p, atMs)).filter((t): t is number => t !== null)
  const tempC = probe === null ? null : bathTempAt(probe, atMs)
  return {
    atMs,
    pot,
    run: pot.run,
    stage: pot.run?.stage ?? null,
    probe,
    tempC,
    hottestC: temps.length === 0 ? null : Math.max(...temps),
    rateCPerMin: tempC === null ? null : rateOver(pot.course, atMs, 3 * 60_000),
    course: pot.course,
    dial: pot.dial?.dial ?? null,
  }
}

/** The first probe that can be believed now, else the first. */
export const governing = (pot: PotState, atMs: number): ProbeSense | null =>
  pot.probes.find((p) => bathTempAt(p, atMs) !== null) ?? pot.probes[0] ?? null

/** What one probe says of the bath now, °C; `null`: nothing. A slow probe is given half a period more. */
export function bathTempAt(sense: ProbeSense, atMs: number): number | null {
  const { estimate, last } = sense
  if (estimate === null || last === null || sense.place.kind !== 'in') return null
  const staleMs = Math.max(STALE_MS, 1.5 * (sense.periodMs ?? 0))
  if (atMs - last.atMs > staleMs) return null
  const { tempC } = bathOf(estimate, lagOf(sense))
  return Math.abs(tempC - last.tempC) <= SAME_C ? last.tempC : tempC
}

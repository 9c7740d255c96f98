import type { Reading } from '../measure/reading.ts'
import { noteCooling } from './cooling-track.ts'
import { noteCourse } from './course.ts'
import { bathOf } from './estimate.ts'
import type { NoticeHappening } from './happening.ts'
import type { Point } from './hold-pieces.ts'
import type { PotStep } from './pot-events.ts'
import { quantumOf } from './probe-noise.ts'
import type { PotState } from './pot-state.ts'
import { governing } from './pot-view.ts'
import { type PlaceChange, type ProbeSense, lagOf, senseReading } from './probe-sense.ts'
import { type StageRun, noteBlind, noteReading } from './stage-run.ts'

/** A sample of one of the pot's probes. Only the governing probe's readings go into the hold. */
export function stepReading(pot: PotState, reading: Reading): PotStep {
  const index = pot.probes.findIndex((p) => p.probe === reading.probe)
  const before = pot.probes[index]
  if (before === undefined) return { pot, happenings: [] }
  const { sense, change } = senseReading(before, reading)
  const heard = { ...pot, probes: pot.probes.with(index, sense) }
  if (governing(heard, reading.atMs)?.probe !== sense.probe) return { pot: heard, happenings: [] }
  const booked = bookReading(heard, before, sense, change)
  return { pot: booked, happenings: change?.kind === 'back' ? probeBack(booked, sense, reading.atMs) : [] }
}

function bookReading(pot: PotState, before: ProbeSense, sense: ProbeSense, change: PlaceChange): PotState {
  if (change?.kind === 'out') {
    const { sinceMs } = change
    return withRuns(pot, (run) => noteBlind(run, sinceMs))
  }
  const { last, estimate } = sense
  if (sense.place.kind !== 'in' || last === null || last === before.last || estimate === null) return pot
  const level = { atMs: last.atMs, tempC: estimate.x.levelC }
  const course =
    estimate.aside.length > 0 ? pot.course : noteCourse(pot.course, last, level.tempC, estimate.stepMs)
  const noted = withRuns({ ...pot, course }, (run, follows) => noteReading(run, last, follows))
  return estimate.aside.length > 0
    ? noted
    : withCooling(noted, { ...level, tempC: bathOf(estimate, lagOf(sense)).tempC }, quantumOf(estimate.noise))
}

function withCooling(pot: PotState, point: Point, stepC: number): PotState {
  const { run } = pot
  if (run === null || run.cooling === null || run.stage.kind !== 'cool') return pot
  const cooling = noteCooling(run.cooling, point, run.stage.coolToC, pot, stepC)
  return cooling === run.cooling ? pot : { ...pot, run: { ...run, cooling } }
}

/** The running stage, and the one before it, whose last moments the first reading after it still settles. */
function withRuns(pot: PotState, next: (run: StageRun, follows: boolean) => StageRun): PotState {
  const last = pot.ended.at(-1)
  const run = pot.run === null ? null : next(pot.run, false)
  if (last === undefined || (last.trace.last?.atMs ?? 0) >= (last.endedMs ?? 0)) return { ...pot, run }
  return { ...pot, run, ended: [...pot.ended.slice(0, -1), next(last, run !== null)] }
}

function probeBack(pot: PotState, sense: ProbeSense, atMs: number): readonly NoticeHappening[] {
  if (pot.run === null || pot.run.stage.kind === 'rest') return []
  const tempC = sense.last?.tempC ?? null
  return [{ kind: 'notice', notice: 'probe-back', atMs, potId: pot.potId, stageId: pot.run.stage.id, tempC }]
}

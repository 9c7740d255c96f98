import type { PotLive } from '#core/wire/live'
import { windowOf } from '../../state/bath-standing.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

interface Line {
  readonly atMs: number
  readonly text: string
}

/** What comes next at a pot, the nearest first: sentences for the card. `nowMs`: the server's clock. */
export function nextLines(pot: PotLive, nowMs: number, w: Catalogue, f: Format): readonly string[] {
  return [turnLine, reachLine, peakLine, leaveLine, coolLine, doneLine, outLine]
    .flatMap((line) => line(pot, nowMs, w, f) ?? [])
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ text }) => text)
}

type LineOf = (pot: PotLive, nowMs: number, w: Catalogue, f: Format) => Line | null

const MINUTE_MS = 60_000

/** How long until then, in whole minutes: nobody at a pot acts by the second. */
const left = (atMs: number, nowMs: number, f: Format) =>
  atMs - nowMs < 2 * MINUTE_MS ? f.minutes(Math.max(MINUTE_MS, atMs - nowMs) / 1000) : f.span(atMs - nowMs)

const turnLine: LineOf = ({ hold }, nowMs, w, f) => {
  const atMs = hold?.nextTurnMs ?? null
  if (atMs === null) return null
  return { atMs, text: atMs <= nowMs ? w.stove.turnNow : w.stove.nextTurn(left(atMs, nowMs, f)) }
}

const reachLine: LineOf = (pot, nowMs, w, f) => {
  const atMs = reachesMs(pot)
  if (atMs === null) return null
  return { atMs, text: w.stove.reachesWindow(f.when(atMs, nowMs), left(atMs, nowMs, f)) }
}

const peakLine: LineOf = (pot, _nowMs, w, f) => {
  const atMs = reachesMs(pot)
  const peakC = pot.forecast?.peakC ?? null
  return atMs === null || peakC === null ? null : { atMs, text: w.stove.peak(f.temp(peakC)) }
}

/** A bath that is there needs no telling when it will be. */
function reachesMs({ forecast, stage, tempC }: PotLive): number | null {
  const window = windowOf(stage)
  const isOnTheWay = window !== null && tempC !== null && tempC < window[0]
  return isOnTheWay ? (forecast?.reachesWindowMs ?? null) : null
}

const leaveLine: LineOf = ({ forecast }, nowMs, w, f) => {
  const atMs = forecast?.leavesWindowMs ?? null
  return atMs === null ? null : { atMs, text: w.stove.leavesWindow(left(atMs, nowMs, f)) }
}

const coolLine: LineOf = ({ forecast, stage }, nowMs, w, f) => {
  if (stage?.kind !== 'cool' || forecast === null) return null
  const goal = f.temp(stage.coolToC)
  const range = forecast.reachesCoolTo90Ms
  if (range !== null)
    return {
      atMs: range[0],
      text: w.stove.reachesCoolBetween(goal, f.when(range[0], nowMs), f.when(range[1], nowMs)),
    }
  const atMs = forecast.reachesCoolToMs
  return atMs === null ? null : { atMs, text: w.stove.reachesCool(goal, f.when(atMs, nowMs)) }
}

const doneLine: LineOf = ({ hold }, nowMs, w, f) => {
  const atMs = hold?.expectedDoneMs ?? null
  if (atMs === null || hold?.state === 'done') return null
  return { atMs, text: w.stove.nextDone(f.when(atMs, nowMs), left(atMs, nowMs, f)) }
}

const outLine: LineOf = ({ hold }, nowMs, w, f) => {
  const atMs = hold?.outByMs ?? null
  if (atMs === null) return null
  const when = f.when(atMs, nowMs)
  return { atMs, text: atMs <= nowMs ? w.stove.outNow(when) : w.stove.outBy(when, left(atMs, nowMs, f)) }
}

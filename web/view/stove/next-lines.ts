import type { PotLive } from '#core/wire/live'
import { windowOf } from '../../state/bath-standing.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** What comes next at a pot, the nearest first: sentences for the card. `nowMs`: the server's clock. */
export function nextLines(pot: PotLive, nowMs: number, w: Catalogue, f: Format): readonly string[] {
  return [
    ...turnLine(pot, nowMs, w, f),
    ...windowLines(pot, nowMs, w, f),
    ...coolLine(pot, nowMs, w, f),
  ].concat(doneLines(pot, nowMs, w, f))
}

const left = (atMs: number, nowMs: number, f: Format) => f.span(Math.max(0, atMs - nowMs))

function turnLine({ hold }: PotLive, nowMs: number, w: Catalogue, f: Format): string[] {
  if (hold?.nextTurnMs === null || hold?.nextTurnMs === undefined) return []
  return [hold.nextTurnMs <= nowMs ? w.stove.turnNow : w.stove.nextTurn(left(hold.nextTurnMs, nowMs, f))]
}

function windowLines(pot: PotLive, nowMs: number, w: Catalogue, f: Format): string[] {
  const { forecast } = pot
  if (forecast === null) return []
  const { leavesWindowMs, peakC } = forecast
  // A bath that is there needs no telling when it will be.
  const reachesWindowMs =
    isOnTheWay(pot) && forecast.reachesWindowMs !== null ? forecast.reachesWindowMs : null
  return [
    ...(reachesWindowMs === null
      ? []
      : [w.stove.reachesWindow(f.when(reachesWindowMs, nowMs), left(reachesWindowMs, nowMs, f))]),
    ...(leavesWindowMs === null ? [] : [w.stove.leavesWindow(left(leavesWindowMs, nowMs, f))]),
    ...(reachesWindowMs === null || peakC === null ? [] : [w.stove.peak(f.temp(peakC))]),
  ]
}

const isOnTheWay = ({ stage, tempC }: PotLive): boolean => {
  const window = windowOf(stage)
  return window !== null && tempC !== null && tempC < window[0]
}

function coolLine({ forecast, stage }: PotLive, nowMs: number, w: Catalogue, f: Format): string[] {
  if (stage?.kind !== 'cool' || forecast === null) return []
  const goal = f.temp(stage.coolToC)
  const range = forecast.reachesCoolTo90Ms
  if (range !== null)
    return [w.stove.reachesCoolBetween(goal, f.when(range[0], nowMs), f.when(range[1], nowMs))]
  return forecast.reachesCoolToMs === null
    ? []
    : [w.stove.reachesCool(goal, f.when(forecast.reachesCoolToMs, nowMs))]
}

function doneLines({ hold }: PotLive, nowMs: number, w: Catalogue, f: Format): string[] {
  if (hold === null) return []
  const { expectedDoneMs, outByMs, state } = hold
  return [
    ...(expectedDoneMs === null || state === 'done'
      ? []
      : [w.stove.nextDone(f.when(expectedDoneMs, nowMs), left(expectedDoneMs, nowMs, f))]),
    ...(outByMs === null
      ? []
      : [
          outByMs <= nowMs
            ? w.stove.outNow(f.when(outByMs, nowMs))
            : w.stove.outBy(f.when(outByMs, nowMs), left(outByMs, nowMs, f)),
        ]),
  ]
}

import { holdDial, steadyC } from '#core/bath/advise'
import { withLitres } from '#core/bath/evidence'
import { forecastBath, type ForecastPoint, reachesS } from '#core/bath/forecast'
import type { PotBelief } from '#core/bath/pot-belief'
import { potModel } from '#core/bath/pot-model'
import type { WhatIfAsk } from '#core/wire/api-burner'
import type { RangedSeconds, WhatIfAnswer } from '#core/wire/burner'

const POINTS = 120

/** The course of a bath from cold or from anywhere, if dial and lid stay as they are asked for. */
export function whatIf(belief: PotBelief, isGuess: boolean, ask: WhatIfAsk): WhatIfAnswer {
  const filled = ask.litres === undefined ? belief : withLitres(belief, ask.litres)
  const model = potModel(filled.vessel)
  const roomC = ask.surroundingsC ?? model.roomC
  const startC = ask.startC ?? roomC
  const { lid, stage } = ask
  const dial = Math.min(ask.dial, model.dialMax)
  const untilS = ask.hours * 3600
  const standing = { lid, roomC }
  const points = forecastBath(
    filled,
    { waterC: startC, rateCPerMin: startC > roomC + WARM_C ? 0 : NO_HEAT_C_PER_MIN, spreadC: 0.1 },
    { dial, lid, roomC },
    { untilS, stepS: untilS / POINTS },
  )
  const steady = steadyC(filled, dial, standing)
  const middleC = stage.windowC === undefined ? null : (stage.windowC[0] + stage.windowC[1]) / 2
  return {
    isGuess,
    path: points.map((p) => [p.afterS, rounded(p.tempC), rounded(p.low90C), rounded(p.high90C)]),
    ...windowTimes(points, stage.windowC, startC),
    passesCeilingS:
      stage.ceilingC === undefined || startC > stage.ceilingC ? null : crossing(points, stage.ceilingC),
    coolEnoughS:
      stage.coolToC === undefined || startC <= stage.coolToC ? null : rangedCrossing(points, stage.coolToC),
    peakC: Math.max(...points.map((p) => p.tempC)),
    steadyC: steady.value >= model.boilingC - 0.5 ? null : steady,
    boilingC: model.boilingC,
    holdDial: middleC === null ? null : holdDial(filled, middleC, standing),
  }
}

/** A bath this far above the room stood on a warm burner: its heat replaces its loss. Else the element is cold, °C. */
const WARM_C = 25
/** Falls faster than any pot: no heat flows yet. */
const NO_HEAT_C_PER_MIN = -10

const rounded = (tempC: number): number => Math.round(tempC * 100) / 100

const crossing = (points: readonly ForecastPoint[], levelC: number): number | null =>
  reachesS(
    points,
    points.map((p) => p.tempC),
    levelC,
  )

function rangedCrossing(points: readonly ForecastPoint[], levelC: number): RangedSeconds | null {
  const value = crossing(points, levelC)
  if (value === null) return null
  const times = [(p: ForecastPoint) => p.low90C, (p: ForecastPoint) => p.high90C].map((of) =>
    reachesS(points, points.map(of), levelC),
  )
  const early90 = Math.min(value, ...times.filter((s) => s !== null))
  const late90 = times.includes(null) ? null : Math.max(value, ...times.map((s) => s ?? value))
  return { value, early90, late90 }
}

function windowTimes(
  points: readonly ForecastPoint[],
  windowC: readonly [number, number] | undefined,
  startC: number,
): Pick<WhatIfAnswer, 'reachesS' | 'leavesS'> {
  if (windowC === undefined) return { reachesS: null, leavesS: null }
  const [lowC, highC] = windowC
  if (startC < lowC) return { reachesS: rangedCrossing(points, lowC), leavesS: crossing(points, highC) }
  if (startC > highC) return { reachesS: rangedCrossing(points, highC), leavesS: null }
  const out = [crossing(points, highC), fallingTo(points, lowC)].filter((s) => s !== null)
  return {
    reachesS: { value: 0, early90: 0, late90: 0 },
    leavesS: out.length === 0 ? null : Math.min(...out),
  }
}

const fallingTo = (points: readonly ForecastPoint[], levelC: number): number | null =>
  points[0]!.tempC > levelC ? crossing(points, levelC) : null

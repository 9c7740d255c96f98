import { GAP_MS } from '../measure/reading.ts'

/** A trace as plain pairs, in order of time. */
export type Trace = readonly (readonly [atMs: number, tempC: number])[]

/** What a bath's trace says in a few numbers; `null` where it can't. */
export interface TraceFacts {
  /** From the first reading of the stage to the window, minutes. */
  readonly heatUpMin: number | null
  /** Mean rate over that time, °C a minute. */
  readonly heatUpCPerMin: number | null
  readonly peakC: number | null
  /** Mean while in the window or above, weighted by time; from reaching the window to the end. */
  readonly meanC: number | null
  readonly minC: number | null
}

/** Facts of one stage's trace against its window's bottom, °C. */
export function traceFacts(trace: Trace, windowBottomC: number, gapMs: number = GAP_MS): TraceFacts {
  const first = trace[0]
  if (first === undefined)
    return { heatUpMin: null, heatUpCPerMin: null, peakC: null, meanC: null, minC: null }
  const reachedAt = trace.findIndex(([, tempC]) => tempC >= windowBottomC)
  const temps = trace.map(([, tempC]) => tempC)
  const peakC = temps.reduce((a, b) => Math.max(a, b))
  if (reachedAt < 0)
    return {
      heatUpMin: null,
      heatUpCPerMin: null,
      peakC,
      meanC: null,
      minC: temps.reduce((a, b) => Math.min(a, b)),
    }
  const [reachedMs, reachedC] = trace[reachedAt]!
  const heatUpMin = (reachedMs - first[0]) / 60_000
  const held = trace.slice(reachedAt)
  return {
    heatUpMin,
    heatUpCPerMin: heatUpMin > 0 ? (reachedC - first[1]) / heatUpMin : null,
    peakC,
    meanC: timeMeanC(held, gapMs),
    minC: held.reduce((least, [, tempC]) => Math.min(least, tempC), Infinity),
  }
}

/** Mean by time (trapezium), gaps left out; a single reading is its own mean. */
export function timeMeanC(trace: Trace, gapMs: number = GAP_MS): number | null {
  let areaCMs = 0
  let lengthMs = 0
  for (let i = 1; i < trace.length; i += 1) {
    const [fromMs, fromC] = trace[i - 1]!
    const [toMs, toC] = trace[i]!
    if (toMs - fromMs > gapMs) continue
    areaCMs += ((fromC + toC) / 2) * (toMs - fromMs)
    lengthMs += toMs - fromMs
  }
  return lengthMs > 0 ? areaCMs / lengthMs : (trace[0]?.[1] ?? null)
}

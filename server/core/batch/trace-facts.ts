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
  /** Mean from reaching the window to the end, weighted by time; dips under the window count. */
  readonly meanC: number | null
}

const NOTHING: TraceFacts = { heatUpMin: null, heatUpCPerMin: null, peakC: null, meanC: null }

/** Facts of one stage's trace against its window's bottom, °C. */
export function traceFacts(trace: Trace, windowBottomC: number, gapMs: number = GAP_MS): TraceFacts {
  const first = trace[0]
  if (first === undefined) return NOTHING
  const peakC = trace.reduce((highestC, [, tempC]) => Math.max(highestC, tempC), -Infinity)
  const reachedAt = trace.findIndex(([, tempC]) => tempC >= windowBottomC)
  if (reachedAt < 0) return { ...NOTHING, peakC }
  const [reachedMs, reachedC] = trace[reachedAt]!
  const heatUpMin = (reachedMs - first[0]) / 60_000
  return {
    heatUpMin,
    heatUpCPerMin: heatUpMin > 0 ? (reachedC - first[1]) / heatUpMin : null,
    peakC,
    meanC: timeMeanC(trace.slice(reachedAt), gapMs),
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

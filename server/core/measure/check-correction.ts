import type { CheckPoint } from './check-point.ts'
import type { Correction } from './correction.ts'
import { fitLine } from './fit-line.ts'

export type MadeCorrection =
  | { readonly ok: true; readonly correction: Correction }
  | { readonly ok: false; readonly why: string }

/** Two checks closer than this can't tell a slope, °C. */
const LEAST_APART_C = 20
/** A whole probe's scale is right to this share; one that is farther off is broken or was checked badly. */
const MOST_SLOPE = 0.05
/** A correction larger than this is a broken probe, °C. */
const MOST_OFFSET_C = 5

/**
 * The correction that settled checks give, to hold from `fromMs` on: an offset from one, the line through two, a
 * least-squares line through three or more. Refused when they contradict each other.
 */
export function correctionOf(checks: readonly CheckPoint[], fromMs: number, who?: string): MadeCorrection {
  const dated = { fromMs, ...(who === undefined ? {} : { who }) }
  const [first, second] = checks.toSorted((a, b) => a.trueC - b.trueC)
  if (first === undefined) return { ok: false, why: 'there is no settled check yet; one at least is needed' }
  const far = checks.find((c) => Math.abs(c.trueC - c.rawC) > MOST_OFFSET_C)
  if (far !== undefined) {
    const offC = Math.abs(far.trueC - far.rawC).toFixed(1)
    return {
      ok: false,
      why: `a check is ${offC} °C off; a correction is at most ${MOST_OFFSET_C} °C, look at the probe`,
    }
  }
  if (second === undefined) {
    return {
      ok: true,
      correction: { kind: 'offset', ...dated, offsetC: first.trueC - first.rawC, check: first },
    }
  }
  return checks.length === 2 ? throughTwo(first, second, dated) : throughMany(checks, dated)
}

interface Dated {
  readonly fromMs: number
  readonly who?: string
}

function throughTwo(low: CheckPoint, high: CheckPoint, dated: Dated): MadeCorrection {
  const apartC = high.rawC - low.rawC
  if (apartC < LEAST_APART_C) {
    const why = `the two checks are ${apartC.toFixed(1)} °C apart; at least ${LEAST_APART_C} °C are needed for a line`
    return { ok: false, why }
  }
  const slope = (high.trueC - low.trueC) / apartC - 1
  return slopeProblem(slope) ?? { ok: true, correction: { kind: 'two-point', ...dated, low, high } }
}

function throughMany(points: readonly CheckPoint[], dated: Dated): MadeCorrection {
  const raws = points.map((p) => p.rawC)
  const apartC = Math.max(...raws) - Math.min(...raws)
  if (apartC < LEAST_APART_C) {
    const why = `the checks span ${apartC.toFixed(1)} °C; at least ${LEAST_APART_C} °C are needed for a line`
    return { ok: false, why }
  }
  const line = fitLine(points)
  return slopeProblem(line.slope) ?? { ok: true, correction: { kind: 'line', ...dated, ...line, points } }
}

function slopeProblem(slope: number): MadeCorrection | null {
  if (Math.abs(slope) <= MOST_SLOPE) return null
  const percent = Math.abs(slope * 100).toFixed(1)
  return {
    ok: false,
    why: `the checks ask to stretch the scale by ${percent} %; at most ${MOST_SLOPE * 100} % is likely, repeat them`,
  }
}

import type { ProbeFault } from './reading.ts'

export type LoopValue =
  | { readonly ok: true; readonly tempC: number }
  | { readonly ok: false; readonly fault: ProbeFault; readonly found: string }

/**
 * °C from a 4–20 mA loop. NAMUR NE 43: 3.8…20.5 mA measures, under 3.6 or over 21.0 mA says that the sensor failed;
 * between the two nothing is sure, so it is no measurement either (sources differ on that strip).
 */
export function currentLoopC(milliamps: number, at4mAC: number, at20mAC: number): LoopValue {
  const found = `${milliamps} mA`
  // Without a supply or with a broken wire nothing flows at all.
  if (milliamps < 1) return { ok: false, fault: 'not-connected', found }
  if (!(milliamps >= 3.8 && milliamps <= 20.5)) return { ok: false, fault: 'error-code', found }
  return { ok: true, tempC: at4mAC + ((milliamps - 4) / 16) * (at20mAC - at4mAC) }
}

import { type Correction, applyCorrection, correctionAt } from '../measure/correction.ts'

/**
 * What today's correction of a probe would add to a temperature that was stored with the correction of its day, °C:
 * a March bath of 68.3 really ran at 67.7 when the probe has been found 0.6 high since. Exact for offsets; for a line
 * within its slope's distance from 1. 0 when nothing has changed.
 */
export function correctionSince(
  corrections: readonly Correction[],
  storedC: number,
  storedMs: number,
  nowMs: number,
): number {
  const by = (atMs: number) => {
    const correction = correctionAt(corrections, atMs)
    return correction === null ? storedC : applyCorrection(correction, storedC)
  }
  return by(nowMs) - by(storedMs)
}

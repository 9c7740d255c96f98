import type { Plan } from '../plan/plan.ts'

/** From when to when, ms; `null`: it still goes on. */
export type Stretch = readonly [fromMs: number, toMs: number | null]

/**
 * When a probe was in no bath: in a stage without one (`rest`), and while the watch held it for taken out. What it read
 * then is the room's, and a fall to it no cooling of the bath. Unix ms.
 */
export function inAirOf(
  ran: {
    readonly plan: Plan
    readonly runs: readonly {
      readonly stageId: string
      readonly startedMs: number
      readonly endedMs: number | null
    }[]
  },
  alarms: readonly {
    readonly alarm: string
    readonly sinceMs: number
    readonly clearedMs: number | null
  }[],
): readonly Stretch[] {
  const kindOf = (stageId: string) => ran.plan.stages.find(({ id }) => id === stageId)?.kind
  return [
    ...ran.runs
      .filter(({ stageId }) => kindOf(stageId) === 'rest')
      .map(({ startedMs, endedMs }): Stretch => [startedMs, endedMs]),
    ...alarms
      .filter(({ alarm }) => alarm === 'probe-out')
      .map(({ sinceMs, clearedMs }): Stretch => [sinceMs, clearedMs]),
  ]
}

/** The begin belongs to the bath, and so does the end: between them lies a gap. */
export const isInAir = (atMs: number, inAir: readonly Stretch[]): boolean =>
  inAir.some(([fromMs, toMs]) => atMs > fromMs && (toMs === null || atMs < toMs))

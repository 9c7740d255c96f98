import type { Course } from '../course.ts'
import type { PotView } from '../pot-view.ts'
import type { ProbeNoise } from '../probe-noise.ts'
import { type AlarmRule, BETWEEN, OFF } from './alarm-rule.ts'

const TEN_MIN = 10
/**
 * A living probe that trembled three times within twenty minutes does not fall still by itself; unless it
 * counts so coarsely that one value stood for a good part of the time before, too.
 */
const LIVELY_MS = 20 * 60_000
const COARSE_RUN_01 = 1 / 4

/**
 * Not a digit changes where a bath would. It would where the probe had trembled before, and
 * where the bath was on its way up or down; a coarse probe in a steady hold may well show one value for long.
 */
export const probeStuck: AlarmRule = {
  alarm: 'probe-stuck',
  judge(view, { onDelayMs }) {
    const { stage, probe } = view
    const noise = probe?.estimate?.noise
    if (stage === null || stage.kind === 'rest' || !probe || !noise || probe.place.kind !== 'in') return null
    const sinceMs = noise.sameSinceMs
    // Measured by readings: silence is another alarm.
    if (probe.last === null || probe.last.atMs - sinceMs < onDelayMs) return OFF
    const third = noise.turnsMs[0]
    const trembled = noise.turnsMs.length === 3 && third !== undefined && third >= sinceMs - LIVELY_MS
    const lively = trembled && noise.longRunMs <= COARSE_RUN_01 * onDelayMs
    return lively || wasOnItsWay(view, sinceMs, noise) ? { is: 'on', sinceMs } : BETWEEN
  },
}

/** Up while it heats up, down while it cools; a bath whose burner was just turned off turns, and stands still for that. */
function wasOnItsWay({ stage, run, course }: PotView, sinceMs: number, noise: ProbeNoise): boolean {
  const heatsUp =
    stage?.kind === 'hold' && run?.trace.clock?.entryMs === null && run.trace.clock.beganMs === null
  if (stage?.kind !== 'cool' && !heatsUp) return false
  const rate = rateUpTo(course, sinceMs)
  // The first steps do not tell yet how fine a probe counts, but that it may count no finer.
  const stepC = noise.steps === 0 ? 0 : noise.leastStepC
  return (heatsUp ? rate : -rate) * TEN_MIN >= Math.max(0.3, 3 * stepC)
}

/** °C/min over the ten minutes before a moment; 0 when they are not known. */
function rateUpTo({ minutes }: Course, atMs: number): number {
  const span = minutes.filter((p) => p.atMs <= atMs && p.atMs >= atMs - TEN_MIN * 60_000)
  const [first, last] = [span[0], span.at(-1)]
  if (first === undefined || last === undefined || last.atMs - first.atMs < 3 * 60_000) return 0
  return ((last.tempC - first.tempC) / (last.atMs - first.atMs)) * 60_000
}

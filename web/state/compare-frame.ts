/** The frame of a picture with several traces: minutes from goods-in along, °C upwards, with round ticks. */
export interface CompareFrame {
  readonly fromMin: number
  readonly toMin: number
  readonly lowC: number
  readonly highC: number
  readonly ticksMin: readonly number[]
  readonly ticksC: readonly number[]
}

interface Drawn {
  readonly windowC: readonly [low: number, high: number] | null
  readonly points: readonly (readonly [afterMs: number, tempC: number])[]
}

/** Steps that people count in, minutes and °C. */
const STEPS_MIN = [5, 10, 15, 30, 60, 120, 240, 480, 720, 1440]
const STEPS_C = [1, 2, 5, 10, 20]
const MOST_TICKS = 8

/** `null` when there is nothing to draw. `throughMin`: what comes after is left out (a night's cool-down). */
export function compareFrame(batches: readonly Drawn[], throughMin: number): CompareFrame | null {
  const points = batches.flatMap((batch) => batch.points.filter(([ms]) => ms <= throughMin * 60_000))
  if (points.length === 0) return null
  const minutes = points.map(([ms]) => ms / 60_000)
  const temps = [...points.map(([, tempC]) => tempC), ...batches.flatMap(({ windowC }) => windowC ?? [])]
  const fromMin = least(minutes)
  const toMin = Math.max(most(minutes), fromMin + 1)
  const lowC = Math.floor(least(temps)) - 1
  const highC = Math.ceil(most(temps)) + 1
  return {
    fromMin,
    toMin,
    lowC,
    highC,
    ticksMin: ticks(fromMin, toMin, STEPS_MIN),
    ticksC: ticks(lowC, highC, STEPS_C),
  }
}

function ticks(from: number, to: number, steps: readonly number[]): readonly number[] {
  const step = steps.find((s) => (to - from) / s <= MOST_TICKS) ?? steps.at(-1)!
  const first = Math.ceil(from / step)
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, i) => (first + i) * step)
}

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b))
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b))

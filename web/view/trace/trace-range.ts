import { levelTempsC } from '../chart/levels.ts'
import { rangeWithRoom } from '../chart/range-with-room.ts'
import type { TracePicture } from './trace-picture.ts'

/** What is foreseen may leave the picture when it goes further past the window and the ceiling, °C. */
const PAST_C = 5

/** All there is to see of a trace, with a little room, °C. */
export function traceRange(picture: TracePicture): readonly [lowC: number, highC: number] {
  const inView = picture.points.filter(([ms]) => ms >= picture.fromMs && ms <= picture.toMs)
  const ahead = (picture.forecast ?? []).filter(([ms]) => ms <= picture.toMs)
  const levels = levelTempsC(picture)
  const limit = nearLevels(levels)
  return rangeWithRoom([
    ...inView.map(([, tempC]) => tempC),
    ...ahead.map(([, tempC]) => limit(tempC)),
    ...levels,
  ])
}

/** So that what is only foreseen does not press the trace flat. */
function nearLevels(levels: readonly number[]): (tempC: number) => number {
  if (levels.length === 0) return (tempC) => tempC
  const [low, high] = [Math.min(...levels) - PAST_C, Math.max(...levels) + PAST_C]
  return (tempC) => Math.min(high, Math.max(low, tempC))
}

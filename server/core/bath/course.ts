import { type Lid, type PotNow, powerW, stepModel, type TunedPot } from './pot-model.ts'

/** How the burner and the lid stand from now on, and what is to be changed later. */
export interface Course {
  readonly dial: number
  /** Heat that reaches the water, W, where the dial isn't known: it stays until an act turns the dial. */
  readonly intoW?: number
  readonly lid: Lid
  readonly roomC: number
  /** In the order of their times. */
  readonly acts?: readonly CourseAct[]
}

export interface CourseAct {
  readonly afterS: number
  readonly dial?: number
  readonly lid?: Lid
}

/** How long to look ahead, and the length of a step; the last step may be shorter. */
export interface Horizon {
  readonly untilS: number
  readonly stepS: number
}

/** The bath's temperature at equal steps from now (index 0) on, °C; the last step may be shorter. */
export function courseC(pot: TunedPot, start: PotNow, course: Course, horizon: Horizon): number[] {
  return courseStates(pot, start, course, horizon).map((now) => now.waterC)
}

/** The whole state of the pot at those steps. */
export function courseStates(pot: TunedPot, start: PotNow, course: Course, horizon: Horizon): PotNow[] {
  const states = [start]
  const acts = course.acts ?? []
  let now = start
  let setting = {
    dial: course.dial,
    lid: course.lid,
    intoW: course.intoW ?? powerW(pot, course.dial),
    roomC: course.roomC,
  }
  let done = 0
  let endS = Math.min(horizon.stepS, horizon.untilS)
  for (let atS = 0; atS < horizon.untilS;) {
    for (; done < acts.length && acts[done]!.afterS <= atS; done++)
      setting = changed(pot, setting, acts[done]!)
    const cutS = Math.min(endS, acts[done]?.afterS ?? endS)
    now = stepModel(pot, setting, now, cutS - atS)
    atS = cutS
    if (atS < endS) continue
    states.push(now)
    endS = Math.min(endS + horizon.stepS, horizon.untilS)
  }
  return states
}

function changed<S extends { readonly dial: number; readonly lid: Lid; readonly intoW: number }>(
  pot: TunedPot,
  from: S,
  act: CourseAct,
) {
  const lid = act.lid ?? from.lid
  return act.dial === undefined
    ? { ...from, lid }
    : { ...from, lid, dial: act.dial, intoW: powerW(pot, act.dial) }
}

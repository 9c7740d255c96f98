import { courseC } from '../bath/course.ts'
import { coldPot } from '../bath/heat-up.ts'
import type { PotBelief } from '../bath/pot-belief.ts'
import type { Lid } from '../bath/pot-model.ts'
import { tunedOnce } from './learned-pot.ts'

const COOLING = { untilS: 36 * 3600, stepS: 300 } as const

/** Seconds until a pot with its burner cold has fallen to `toC`, as it is believed to lose heat; `null`: not in 36 h. */
export function modelledCoolingS(belief: PotBelief, tempC: number, lid: Lid, toC: number): number | null {
  const pot = tunedOnce(belief)
  const path = courseC(pot, coldPot(pot, tempC), { dial: 0, lid, roomC: pot.model.roomC }, COOLING)
  const at = path.findIndex((waterC) => waterC <= toC)
  return at < 1 ? null : at * COOLING.stepS
}

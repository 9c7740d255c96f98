import { type PotAct, type SimulatedPotState, stepPot } from './simulated-pot.ts'

/** One thing that happens to a simulated pot. `atS`: seconds of the pot's own life; may be negative. */
export interface ScriptedChange extends Omit<PotAct, 'probe'> {
  readonly atS: number
  /** `out`: on the bench; `unplugged`: silent, until `in` or `out`. */
  readonly probe?: 'in' | 'out' | 'unplugged'
}

/** A pot on its way through a script. */
export interface ScriptedPot {
  readonly pot: SimulatedPotState
  readonly script: readonly ScriptedChange[]
  /** Seconds of its own life so far. */
  readonly livedS: number
  readonly isPlugged: boolean
}

/**
 * A pot with its script (by time) before its first moment. A script that begins before 0 has been lived
 * through when 0 is reached, so that a pot can be met in the middle of its day.
 */
export function beginScript(pot: SimulatedPotState, script: readonly ScriptedChange[]): ScriptedPot {
  return { pot, script, livedS: Math.min(0, script[0]?.atS ?? 0), isPlugged: true }
}

/** The pot at `untilS` of its own life, every change made at its own time. A time that is past changes nothing. */
export function liveUntil(from: ScriptedPot, untilS: number): ScriptedPot {
  let { pot, script, livedS, isPlugged } = from
  for (let change = script[0]; change !== undefined && change.atS <= untilS; change = script[0]) {
    pot = stepPot(stepPot(pot, Math.max(0, change.atS - livedS)), 0, actOf(change))
    livedS = Math.max(livedS, change.atS)
    if (change.probe !== undefined) isPlugged = change.probe !== 'unplugged'
    script = script.slice(1)
  }
  return {
    pot: stepPot(pot, Math.max(0, untilS - livedS)),
    script,
    livedS: Math.max(livedS, untilS),
    isPlugged,
  }
}

function actOf({ probe, ...act }: ScriptedChange): PotAct {
  return probe === 'in' || probe === 'out' ? { ...act, probe } : act
}

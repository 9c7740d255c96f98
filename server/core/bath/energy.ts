import type { PotBelief } from './pot-belief.ts'
import { potModel, powerW, tuned } from './pot-model.ts'
import { vesselPhysics } from './vessel-physics.ts'

/** Energy that the burner took, kilowatt-hours of electricity or gas. */
export interface EnergyUse {
  readonly kWh: number
  /** The nameplate was known, so that only the dial's curve is learned; else the handbook's efficiency is guessed. */
  readonly fromNameplate: boolean
}

export interface DialStretch {
  readonly dial: number
  readonly seconds: number
}

/** What a batch has used, from its dial as noted. */
export function energyUsed(belief: PotBelief, stretches: readonly DialStretch[]): EnergyUse {
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const { ratedW, dialMax } = belief.vessel.burner
  const { efficiency01 } = vesselPhysics(belief.vessel)
  const fullW = powerW(pot, dialMax)
  const drawnW = (dial: number) =>
    ratedW === undefined ? powerW(pot, dial) / efficiency01 : (ratedW * powerW(pot, dial)) / fullW
  const joules = stretches.reduce((sum, { dial, seconds }) => sum + drawnW(dial) * Math.max(0, seconds), 0)
  return { kWh: joules / 3.6e6, fromNameplate: ratedW !== undefined }
}

/** The dial as noted, as stretches from the first word to `untilMs`. */
export function dialStretches(
  notes: readonly { readonly atMs: number; readonly dial: number }[],
  untilMs: number,
): readonly DialStretch[] {
  return notes.map(({ atMs, dial }, i) => ({
    dial,
    seconds: Math.max(0, (Math.min(notes[i + 1]?.atMs ?? untilMs, untilMs) - atMs) / 1000),
  }))
}

/** Money for the energy, in the unit of the price. */
export const energyCost = (use: EnergyUse, pricePerKWh: number): number => use.kWh * pricePerKWh

import type { EveningAnswer } from '#core/wire/burner'
import type { PotOnStove } from '../watch/pots-on-stove.ts'

/** The evening begins with cold water, °C: only so can the whole way up be seen. */
const WARMEST_C = 40

export type EveningRefusal = NonNullable<EveningAnswer['cannot']>

/** Why an evening can't begin at a pot now; `null`: it can. */
export function eveningRefusal(found: PotOnStove | undefined, tempC: number | null): EveningRefusal | null {
  if (found === undefined || found.pot.vessel === null) return 'no-vessel'
  if (found.pot.probe === null) return 'no-probe'
  if (found.batch !== null) return 'stage-running'
  if (tempC === null) return 'no-reading'
  return tempC > WARMEST_C ? 'too-warm' : null
}

export const EVENING_REFUSALS: Readonly<Record<EveningRefusal, string>> = {
  'no-vessel': 'this pot has no vessel: give its litres and its dial first',
  'no-probe': 'no probe hangs in this pot',
  'no-reading': 'the probe of this pot sends no reading of a bath now',
  'stage-running': 'a stage is running in this pot; the evening needs plain water and no batch',
  'too-warm': `the water is over ${WARMEST_C} °C; the evening begins with cold water`,
}

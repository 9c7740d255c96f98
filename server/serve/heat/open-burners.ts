import type { Vessel } from '#core/bath/vessel'
import type { Studio } from '../studio.ts'
import { potSetup } from '../watch/pot-setup.ts'
import type { PotsOnStove } from '../watch/pots-on-stove.ts'
import { BurnerBook, type BurnerBookParts } from './burner-book.ts'

/** The burner book over the pots that stand on the stove. */
export function openBurners(
  stove: PotsOnStove,
  parts: Omit<BurnerBookParts, 'vesselOf' | 'probeOf'>,
): BurnerBook {
  const vesselOf = (potId: string): Vessel | null => stove.find(potId)?.pot.vessel ?? null
  return new BurnerBook({ ...parts, vesselOf, probeOf: (potId) => stove.find(potId)?.pot.probe ?? null })
}

/** The watch goes on with what was learned just now. */
export async function tellLearned(
  {
    clock,
    stove,
    bridges,
    burners,
    watching,
    showStove,
  }: Pick<Studio, 'clock' | 'stove' | 'bridges' | 'burners' | 'watching' | 'showStove'>,
  potId: string,
): Promise<void> {
  const pot = stove.find(potId)?.pot
  if (pot === undefined) return
  const lagS = bridges.probeSettings().find((p) => p.name === pot.probe)?.lagS ?? null
  const setup = potSetup(pot, lagS, burners.beliefOf(potId))
  await watching.note({ kind: 'pot', atMs: clock.nowMs(), potId, pot: setup })
  showStove()
}

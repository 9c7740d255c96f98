import type { PotBelief } from '#core/bath/pot-belief'
import type { PotSetup } from '#core/watch/stove-input'
import type { PotRecord } from '#core/wire/records'

/** What the watch is told of a pot before anything happens in it. */
export const potSetup = (
  { title, vessel }: Pick<PotRecord, 'title' | 'vessel'>,
  lagS: number | null,
  belief: PotBelief | null,
): PotSetup => ({ title, vessel, lagS, ...(belief === null ? {} : { belief }) })

import type { Catalogue } from './catalogue.ts'
import { deBatch } from './de-batch.ts'
import { deHeat } from './de-heat.ts'
import { dePlan } from './de-plan.ts'
import { deProbe } from './de-probe.ts'
import { deRecord } from './de-record.ts'
import { deSaid } from './de-said.ts'
import { deShell } from './de-shell.ts'
import { deStove } from './de-stove.ts'
import { deTell } from './de-tell.ts'

export const german: Catalogue = {
  shell: deShell,
  stove: deStove,
  batch: deBatch,
  plan: dePlan,
  probe: deProbe,
  record: deRecord,
  heat: deHeat,
  tell: deTell,
  said: deSaid,
}

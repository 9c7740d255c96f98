import type { Catalogue } from './catalogue.ts'
import { enBatch } from './en-batch.ts'
import { enHeat } from './en-heat.ts'
import { enPlan } from './en-plan.ts'
import { enProbe } from './en-probe.ts'
import { enRecord } from './en-record.ts'
import { enSaid } from './en-said.ts'
import { enShell } from './en-shell.ts'
import { enStove } from './en-stove.ts'
import { enTell } from './en-tell.ts'

export const english: Catalogue = {
  shell: enShell,
  stove: enStove,
  batch: enBatch,
  plan: enPlan,
  probe: enProbe,
  record: enRecord,
  heat: enHeat,
  tell: enTell,
  said: enSaid,
}

import { enBatch } from './en-batch.ts'
import { enHeat } from './en-heat.ts'
import { enPlan } from './en-plan.ts'
import { enProbe } from './en-probe.ts'
import { enRecord } from './en-record.ts'
import { enShell } from './en-shell.ts'
import { enStove } from './en-stove.ts'
import { enTell } from './en-tell.ts'
import { pseudoWords } from './pseudo-words.ts'

/** Every word on the page. A language is one object of this shape; a missing word does not compile. */
export const english = {
  shell: enShell,
  stove: enStove,
  batch: enBatch,
  plan: enPlan,
  probe: enProbe,
  record: enRecord,
  heat: enHeat,
  tell: enTell,
}

export type Catalogue = typeof english

/** `pseudo` shows at a glance which text bypasses the catalogue, and leaves room for longer languages. */
export const catalogueFor = (language: 'en' | 'pseudo'): Catalogue =>
  language === 'pseudo' ? pseudoWords(english) : english

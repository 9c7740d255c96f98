import type { enBatch } from './en-batch.ts'
import type { enHeat } from './en-heat.ts'
import type { enPlan } from './en-plan.ts'
import type { enProbe } from './en-probe.ts'
import type { enRecord } from './en-record.ts'
import type { enSaid } from './en-said.ts'
import type { enShell } from './en-shell.ts'
import type { enStove } from './en-stove.ts'
import type { enTell } from './en-tell.ts'

/** Every word on the page. A language is one object of this shape; a missing word does not compile. */
export interface Catalogue {
  readonly shell: typeof enShell
  readonly stove: typeof enStove
  readonly batch: typeof enBatch
  readonly plan: typeof enPlan
  readonly probe: typeof enProbe
  readonly record: typeof enRecord
  readonly heat: typeof enHeat
  readonly tell: typeof enTell
  /** What the server, a bridge or the core says went wrong. */
  readonly said: typeof enSaid
}

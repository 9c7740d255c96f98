import type { Reading } from '../measure/reading.ts'
import type { PotBelief } from '../bath/pot-belief.ts'
import type { Vessel } from '../bath/vessel.ts'
import type { BathEvent } from '../plan/event.ts'
import type { Plan } from '../plan/plan.ts'

/**
 * Everything the watch can be told, in time order. The stove is all pots at once; the same inputs in the
 * same order always give the same happenings, so a day can be made again from the record.
 */
export type StoveInput =
  | { readonly kind: 'reading'; readonly atMs: number; readonly reading: Reading }
  /** Silence is an event too: a tick at least every second. */
  | { readonly kind: 'tick'; readonly atMs: number }
  /** A pot stands on the stove, with or without a batch in it. */
  | { readonly kind: 'pot'; readonly atMs: number; readonly potId: string; readonly pot: PotSetup }
  | { readonly kind: 'pot-gone'; readonly atMs: number; readonly potId: string }
  /** From now on this probe hangs in this pot; `use: 'off'` takes it out. One probe is in one pot at a time. */
  | {
      readonly kind: 'assign'
      readonly atMs: number
      readonly probe: string
      readonly potId: string
      readonly use: 'on' | 'off'
    }
  /** A batch is put on a pot; its stages begin with `stage` events. */
  | {
      readonly kind: 'batch'
      readonly atMs: number
      readonly potId: string
      readonly batchId: number
      readonly plan: Plan
      readonly dryWeightG: number | null
      /**
       * Are the goods in the bath? Left out: taken to be in until the first word about them. If that word
       * is `goods-in` they were out before, and the running hold begins anew.
       */
      readonly goodsIn?: boolean
    }
  /** What a person did or noted at a pot. */
  | { readonly kind: 'event'; readonly atMs: number; readonly potId: string; readonly event: BathEvent }
  | { readonly kind: 'bridge'; readonly atMs: number; readonly bridge: string; readonly up: boolean }

/** What is known of a pot before anything happens in it. */
export interface PotSetup {
  readonly title: string
  readonly vessel: Vessel | null
  /** Lag of the probe in it, seconds (time constant); `null`: learned, else a default. */
  readonly lagS: number | null
  /** What was learned of it on its burner; left out: guessed from the vessel. */
  readonly belief?: PotBelief
}

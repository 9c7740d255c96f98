import type { PotBelief } from '#core/bath/pot-belief'
import type { ToldClaim } from '#core/bath/told-claim'

/** A forecast as it was given live; `fromTraces`: known when it was said, 0: the handbook's guess. */
export interface ToldForecast extends ToldClaim {
  readonly potId: string
  readonly stageId: string
  readonly fromTraces: number
}

/**
 * What a forecast said and what came. `replayed`: nobody saw it live; it is what would have been said with what was
 * known before. What was learned by an older version has no `source` and was replayed.
 */
export interface Claim extends ToldClaim {
  readonly stageId: string
  readonly came: number
  readonly fromTraces: number
  readonly source?: 'live' | 'replayed'
}

/**
 * What one trace taught. `laws`: those that the belief's parameters count by; left out: the first ones. `misfitC`: `null` when it held too little to learn from. `isLike`: `false` when this pot gives
 * no such trace, so that nothing was learned; what an older version kept has no word of it.
 */
export interface Lesson {
  readonly laws?: number
  readonly belief: PotBelief
  readonly misfitC: number | null
  readonly isLike?: boolean
  readonly surroundingsC: number
  readonly lid: 'noted' | 'judged-on' | 'judged-off'
  readonly claims: readonly Claim[]
}

/** A stretch of a pot's time that something was learned from. `batchId`: `null` for a guided evening. */
export interface TaughtTrace {
  readonly potId: string
  readonly fromMs: number
  readonly toMs: number
  readonly batchId: number | null
  /** Water in the pot then. */
  readonly litres: number
  /** `null`: nothing could be learned, as no dial was noted. */
  readonly lesson: Lesson | null
}

/**
 * What was learned of pots on their burners. It can all be made again from readings, events and the evenings'
 * spans; the only facts that stand here alone are when a burner was changed and which forecasts were given.
 */
export interface HeatStore {
  /** Oldest first. */
  taught(potId: string): Promise<readonly TaughtTrace[]>
  /** In the place of what was known of the same pot and begin. */
  putTaught(trace: TaughtTrace): Promise<void>
  removeTaught(potId: string, fromMs: number): Promise<void>
  /** Oldest first, Unix ms. */
  burnerChanges(potId: string): Promise<readonly number[]>
  addBurnerChange(change: {
    readonly potId: string
    readonly atMs: number
    readonly who: string | null
  }): Promise<void>
  /** Forecasts that people were given; the same kind at the same moment of a pot stands once. */
  addTold(told: readonly ToldForecast[]): Promise<void>
  /** Both ends included, oldest first. */
  told(potId: string, fromMs: number, toMs: number): Promise<readonly ToldForecast[]>
  /** The guided evenings that are running; `body` is plain JSON of whoever runs them. */
  evenings(): Promise<readonly { readonly potId: string; readonly body: unknown }[]>
  /** `null` ends it. */
  setEvening(potId: string, body: unknown): Promise<void>
}

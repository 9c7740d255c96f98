import type { PotBelief } from '#core/bath/pot-belief'

/** What a forecast said and what came. `window` and `cool`: Unix ms; `peak`: °C. */
export interface Claim {
  readonly kind: 'window' | 'peak' | 'cool'
  readonly stageId: string
  readonly madeMs: number
  readonly told: number
  readonly low90: number
  readonly high90: number
  readonly came: number
  /** Traces that were known when it was said; 0: the handbook's guess. */
  readonly fromTraces: number
}

/** What one trace taught. `misfitC`: `null` when it held too little to learn from. */
export interface Lesson {
  readonly belief: PotBelief
  readonly misfitC: number | null
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
 * spans, so nothing here is ever the only copy of a fact but when a burner was changed.
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
  /** The guided evenings that are running; `body` is plain JSON of whoever runs them. */
  evenings(): Promise<readonly { readonly potId: string; readonly body: unknown }[]>
  /** `null` ends it. */
  setEvening(potId: string, body: unknown): Promise<void>
}

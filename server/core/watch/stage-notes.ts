/** What has been told or is remembered of the running stage, so that nothing is told twice. */
export interface StageNotes {
  /** The window was reached for the first time. */
  readonly atWindowMs: number | null
  /** The bath was under the window, so it comes from below. */
  readonly cameFromBelow: boolean
  /** "Turn down now" was said; how fast the bath rose then, the dial as noted, and whether it has slowed down since. */
  readonly turnDown: {
    readonly atMs: number
    readonly rateCPerMin: number
    readonly dial: number | null
    readonly isHeeded: boolean
  } | null
  readonly holdStarted: boolean
  readonly holdDone: boolean
  /** The hold's clock stands, told; `offSinceMs`/`onSinceMs`: it may come to that. */
  readonly paused: boolean
  readonly offSinceMs: number | null
  readonly onSinceMs: number | null
  /** The last turn of the goods, noted or due. */
  readonly turnedMs: number | null
  readonly outByTold: boolean
  readonly coolSinceMs: number | null
  readonly coolEnoughMs: number | null
  /** Cool-down: the lowest since the last step; how fast it still rose at first; whether it has fallen since. */
  readonly lowest: Lowest | null
  readonly highestC: number | null
  readonly coastRateCPerMin: number | null
  readonly hasFallen: boolean
}

export interface Lowest {
  readonly atMs: number
  readonly tempC: number
}

export const NO_NOTES: StageNotes = {
  atWindowMs: null,
  cameFromBelow: false,
  turnDown: null,
  holdStarted: false,
  holdDone: false,
  paused: false,
  offSinceMs: null,
  onSinceMs: null,
  turnedMs: null,
  outByTold: false,
  coolSinceMs: null,
  coolEnoughMs: null,
  lowest: null,
  highestC: null,
  coastRateCPerMin: null,
  hasFallen: false,
}

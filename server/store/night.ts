/** When the dyer gets up, `06:30`, and how cool a bath must be to lift the goods, °C. `null`: no alarm clock is set. */
export interface WakeWish {
  readonly wakeAt: string | null
  readonly liftC: number
}

/** What was said at bedtime. It stands until it is said otherwise. */
export interface NightStore {
  /** `null`: nobody has said anything yet. */
  wakeWish(): Promise<WakeWish | null>
  setWakeWish(wish: WakeWish): Promise<void>
}

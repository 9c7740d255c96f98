/** At most `most` tries in `withinMs` for each name; a name without tries is forgotten. */
export class TryLimit {
  readonly #most: number
  readonly #withinMs: number
  readonly #tries = new Map<string, readonly number[]>()

  constructor(most: number, withinMs: number) {
    this.#most = most
    this.#withinMs = withinMs
  }

  /** Counts a try; `false` when there were too many. */
  take(name: string, nowMs: number): boolean {
    const recent = (this.#tries.get(name) ?? []).filter((atMs) => nowMs - atMs < this.#withinMs)
    if (recent.length >= this.#most) return false
    this.#forgetOld(nowMs)
    this.#tries.set(name, [...recent, nowMs])
    return true
  }

  #forgetOld(nowMs: number): void {
    for (const [name, tries] of this.#tries)
      if (tries.every((atMs) => nowMs - atMs >= this.#withinMs)) this.#tries.delete(name)
  }
}

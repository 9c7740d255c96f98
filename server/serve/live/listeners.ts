/**
 * Which pages would sound an alarm now: those that said that their sound is on and are still there. A page
 * that does not answer pings is cut off within ten seconds and so leaves the list.
 */
export class Listeners {
  readonly #sounding = new Set<string>()

  seen(page: string, sound: boolean): void {
    if (sound) this.#sounding.add(page)
    else this.#sounding.delete(page)
  }

  gone(page: string): void {
    this.#sounding.delete(page)
  }

  count(): number {
    return this.#sounding.size
  }
}

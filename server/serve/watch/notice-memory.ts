import type { NoticeHappening } from '#core/watch/happening'
import type { MessageStore } from '../../store/messages.ts'

/** Two notices of one name in one stage within this are one that was found again a little earlier or later, ms. */
const SAME_MS = 120_000

interface Told {
  readonly notice: string
  readonly potId: string
  readonly stageId: string
  readonly atMs: number
}

/** Which notices were given already, so that a day folded again does not give them twice. */
export class NoticeMemory {
  readonly #messages: MessageStore
  #told: Told[] = []

  constructor(messages: MessageStore) {
    this.#messages = messages
  }

  async load(sinceMs: number): Promise<void> {
    const stored = await this.#messages.since(sinceMs)
    const told = stored.flatMap(({ kind, message }): Told[] =>
      kind === 'notice'
        ? [
            {
              notice: message.notice,
              potId: message.pot,
              stageId: message.stage,
              atMs: Date.parse(message.at),
            },
          ]
        : [],
    )
    this.#told = [...told, ...this.#told.filter((t) => t.atMs >= sinceMs)]
  }

  /** Remembers it. Live ones are always new; a folded one is when none like it was given near its time. */
  isNew(h: NoticeHappening, isFolded: boolean): boolean {
    const isSame = (t: Told) =>
      t.notice === h.notice &&
      t.potId === h.potId &&
      t.stageId === h.stageId &&
      Math.abs(t.atMs - h.atMs) <= SAME_MS
    if (isFolded && this.#told.some(isSame)) return false
    this.#told.push({ notice: h.notice, potId: h.potId, stageId: h.stageId, atMs: h.atMs })
    return true
  }
}

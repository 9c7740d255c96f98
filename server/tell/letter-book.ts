import { z } from 'zod'
import type { Message } from '../store/messages.ts'
import { type Kept, KeptFile } from './kept.ts'

/** `waiting`: numbers up to `seenId` whose letter has neither arrived nor been given up. */
export interface LetterNote {
  readonly seenId: number
  readonly waiting: readonly number[]
}

const letterNote = z.object({ seenId: z.number(), waiting: z.array(z.number()) })

export const keptLetterNote = (path: string): Kept<LetterNote> =>
  new KeptFile(path, (json) => letterNote.safeParse(json).data ?? null)

export interface LetterBookParts {
  readonly kept: Kept<LetterNote>
  readonly onTrouble: (sentence: string) => void
}

/**
 * Which messages of the record have been brought to a receiver by letter. The record itself is the outbox: a message
 * that is written down and not noted here as settled has not arrived, whenever the program died. The note may be
 * behind (then a letter goes twice, under one id), never ahead.
 */
export class LetterBook {
  readonly #parts: LetterBookParts
  #seenId = 0
  readonly #waiting = new Set<number>()

  constructor(parts: LetterBookParts) {
    this.#parts = parts
  }

  /** Those of `told` that never arrived; they wait now. A receiver that is new is told nothing of the past. */
  async open(told: readonly Message[], lastId: number): Promise<readonly Message[]> {
    const note = (await this.#parts.kept.load()) ?? { seenId: lastId, waiting: [] }
    const isOpen = ({ message: { id } }: Message) => id > note.seenId || note.waiting.includes(id)
    const open = told.filter(isOpen)
    for (const { message } of open) this.#waiting.add(message.id)
    this.#seenId = Math.max(note.seenId, lastId)
    await this.#save()
    return open
  }

  isWaiting(id: number): boolean {
    return this.#waiting.has(id)
  }

  begin(id: number): void {
    this.#waiting.add(id)
    this.#seenId = Math.max(this.#seenId, id)
  }

  /** It has arrived, was given up, or is not true any more. */
  settle(id: number): void {
    if (this.#waiting.delete(id)) void this.#save()
  }

  #save(): Promise<void> {
    const { kept, onTrouble } = this.#parts
    return kept
      .save({ seenId: this.#seenId, waiting: [...this.#waiting] })
      .catch((error: unknown) => onTrouble(`which letters have arrived could not be kept: ${String(error)}`))
  }
}

import type { NoticeMessage } from '#core/wire/live'
import type { Message } from '../store/messages.ts'
import { isCarried, isNoticeFresh } from './carried.ts'
import type { LetterBook } from './letter-book.ts'

/** Notices on their way to people, and those that an earlier run did not bring. `book`: `null` where no phone can be called. */
export class NoticeCalls {
  readonly #book: LetterBook | null
  readonly #underWay = new Map<number, NoticeMessage>()
  #left: readonly NoticeMessage[] = []

  constructor(book: LetterBook | null) {
    this.#book = book
  }

  /** Finds out which of the messages `told` of late nobody is known to have had. */
  async open(told: readonly Message[]): Promise<void> {
    const notices = told.filter((message) => message.kind === 'notice' && isCarried(message))
    const open = (await this.#book?.open(notices, told.at(-1)?.message.id ?? 0)) ?? []
    this.#left = open.flatMap((one) => (one.kind === 'notice' ? [one.message] : []))
  }

  /** Those that are still worth a call; what is past stays in the record. */
  takeLeft(nowMs: number): readonly NoticeMessage[] {
    const left = this.#left
    this.#left = []
    for (const notice of left) if (!isNoticeFresh(notice, nowMs)) this.#book?.settle(notice.id)
    return left.filter((notice) => isNoticeFresh(notice, nowMs))
  }

  begin(notice: NoticeMessage): void {
    this.#underWay.set(notice.id, notice)
    this.#book?.begin(notice.id)
  }

  find(id: number): NoticeMessage | undefined {
    return this.#underWay.get(id)
  }

  /** Somebody has it, or everything was tried. */
  settleUnless(isOpen: (id: number) => boolean): void {
    for (const id of this.#underWay.keys()) {
      if (isOpen(id)) continue
      this.#underWay.delete(id)
      this.#book?.settle(id)
    }
  }
}

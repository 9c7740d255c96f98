import type { CallMessage, TestMessage } from '#core/wire/live'

/** The open pages, as the ones who tell see them. */
export interface Pages {
  /** How many would sound an alarm now: open, answering, sound on. */
  listeners(): number
  call(call: CallMessage): void
  test(test: TestMessage): void
}

import type { AlarmMessage, NoticeMessage } from '#core/wire/live'

/** What was told to people. `message.id` rises over both kinds. */
export type Message =
  | { readonly kind: 'alarm'; readonly message: AlarmMessage }
  | { readonly kind: 'notice'; readonly message: NoticeMessage }

export interface MessageStore {
  /** Under its own number; numbers come in rising order. */
  add(message: Message, atMs: number): Promise<void>
  /** The newest `limit` of those with a number over `id`, in order. */
  after(id: number, limit: number): Promise<readonly Message[]>
  /** Those written down from this time on, in order. */
  since(atMs: number): Promise<readonly Message[]>
  /** The highest number there is; 0 when there is none. */
  lastId(): Promise<number>
}

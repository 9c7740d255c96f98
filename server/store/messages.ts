import type { AlarmMessage, NoticeMessage } from '#core/wire/live'

export type Message =
  | { readonly kind: 'alarm'; readonly message: AlarmMessage }
  | { readonly kind: 'notice'; readonly message: NoticeMessage }

/** A message before it has its number. */
export type NewMessage =
  | { readonly kind: 'alarm'; readonly message: Omit<AlarmMessage, 'id'> }
  | { readonly kind: 'notice'; readonly message: Omit<NoticeMessage, 'id'> }

export interface MessageStore {
  /** Gives it the next number; numbers rise and are never used twice, also after a restart. */
  add(message: NewMessage, atMs: number): Promise<Message>
  /** Those with a number over `id`, in order, at most `limit`. */
  after(id: number, limit: number): Promise<readonly Message[]>
  /** The highest number given out; 0 when there is none. */
  lastId(): Promise<number>
}

import { noticeUrgency } from '#core/watch/notice-urgency'
import type { Message } from '../store/messages.ts'

/** What is only for the morning or the log stays in the house. */
export function isCarried({ kind, message }: Message): boolean {
  if (kind === 'notice') return noticeUrgency(message.notice) !== 'log'
  return message.urgency === 'at-once' || message.urgency === 'soon'
}

import { noticeUrgency } from '#core/watch/notice-urgency'
import type { NoticeMessage } from '#core/wire/live'
import type { Message } from '../store/messages.ts'

/** What is only for the morning or the log stays in the house. */
export function isCarried({ kind, message }: Message): boolean {
  if (kind === 'notice') return noticeUrgency(message.notice) !== 'log'
  return message.urgency === 'at-once' || message.urgency === 'soon'
}

/** What a notice tells of is past after this, ms (judged): then it is in the record, and nobody need come. */
const NOTICE_FRESH_MS = 10 * 60_000

export const isNoticeFresh = (notice: NoticeMessage, nowMs: number): boolean =>
  nowMs - Date.parse(notice.at) <= NOTICE_FRESH_MS

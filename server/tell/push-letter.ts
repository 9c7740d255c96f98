import webpush from 'web-push'
import type { PushSubscriptionRecord } from '#core/wire/tell-settings'
import type { PostRequest } from './post.ts'
import type { VapidKeys } from './vapid-keys.ts'

/** What a phone is shown. `tag`: a later message of the same tag takes the place of the earlier one. */
export interface PushMessage {
  readonly kind: 'alarm' | 'notice' | 'test' | 'hush'
  readonly tag: string
  readonly title: string
  readonly body: string
  /** The page to open, from the root. */
  readonly path: string
  readonly isUrgent: boolean
  /** Number of the message, as pages know it; `null` for a test. */
  readonly id: number | null
  /** What this phone is called where a test was heard. */
  readonly device?: string
}

/** How long a push service keeps a message for a phone that is off: a night's worth would be a false call. */
const KEEP_S = 4 * 3600
/** Push services take 4096 bytes at least, encryption included (RFC 8030 §7.2); text is cut far below. */
const MOST_TEXT = 600

/** The encrypted and signed request for one phone (RFC 8030, 8188, 8291, 8292). */
export function pushLetter(
  subscription: PushSubscriptionRecord,
  message: PushMessage,
  keys: VapidKeys,
  contact: string,
): PostRequest {
  const payload = JSON.stringify({ ...message, body: message.body.slice(0, MOST_TEXT) })
  const details = webpush.generateRequestDetails(subscription, payload, {
    contentEncoding: 'aes128gcm',
    vapidDetails: { subject: contact, ...keys },
    TTL: KEEP_S,
    urgency: message.isUrgent ? 'high' : 'normal',
    topic: topicOf(message.tag),
  })
  return { url: details.endpoint, headers: headersOf(details.headers), body: details.body }
}

/** A topic has at most 32 characters of base64url (RFC 8030 §5.4). */
const topicOf = (tag: string): string => tag.replace(/[^A-Za-z0-9_-]/g, '-').slice(0, 32)

/** The client counts the bytes itself and would refuse a length given beside them. */
function headersOf(all: Readonly<Record<string, unknown>>): Record<string, string> {
  const kept = Object.entries(all).filter(([name]) => name.toLowerCase() !== 'content-length')
  return Object.fromEntries(kept.map(([name, value]) => [name, String(value)]))
}

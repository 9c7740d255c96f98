import { z } from 'zod'
import { languageField, unitField, zoneField } from './person-fields.ts'

/**
 * How alarms leave the house; keys `lamp`, `webhook`, `push` and `escalation` of the settings. Each is off until
 * it is written.
 */

/** A broker that lamps and buzzers listen to. */
export const lampSettings = z.strictObject({
  url: z.string().regex(/^(mqtt|mqtts|ws|wss):\/\/[^\s/]+/, 'a broker such as "mqtt://127.0.0.1:1883"'),
  user: z.string().min(1).max(256).optional(),
  password: z.string().max(256).optional(),
})
export type LampSettings = z.infer<typeof lampSettings>

const PLAIN_HTTP = 'https:// and a host, or http:// to a computer of your own network'

/** A program that wants to know of every alarm. */
export const webhookSettings = z.strictObject({
  url: z.string().max(2048).refine(isWebhookUrl, PLAIN_HTTP),
  /** What the signature is made with, base64, 24 to 64 bytes; `whsec_` may stand before it. */
  secret: z.string().refine(isSecret, '24 to 64 bytes in base64, "whsec_" may stand before them'),
  /** `true`: also sends the sentence, the batch and who acknowledged. */
  details: z.boolean().default(false),
})
export type WebhookSettings = z.infer<typeof webhookSettings>

/** Push to phones. `contact`: whom a push service may write to when something is wrong (RFC 8292 §2.1). */
export const pushSettings = z.strictObject({
  enabled: z.boolean().default(true),
  contact: z
    .string()
    .regex(/^(mailto:[^\s@]+@[^\s@]+|https:\/\/\S+)$/, 'a mailto: or https: address')
    .default('mailto:nobody@example.com'),
})
export type PushSettings = z.infer<typeof pushSettings>

/** Seconds; bounds that keep an alarm an alarm. */
export const escalationSettings = z.strictObject({
  receiptS: z.number().min(2).max(60).default(10),
  acknowledgeS: z.number().min(10).max(600).default(60),
  repeatS: z.number().min(10).max(600).default(60),
  remindS: z.number().min(60).max(3600).default(600),
})

function isSecret(text: string): boolean {
  const base64 = text.replace(/^whsec_/, '')
  if (!/^[A-Za-z0-9+/]+={0,2}$/.test(base64) || base64.length % 4 !== 0) return false
  const bytes = (base64.length / 4) * 3 - (base64.length - base64.replace(/=+$/, '').length)
  return bytes >= 24 && bytes <= 64
}

const URL_PARTS = /^(https?):\/\/(?:[^\s/@]+@)?(\[[0-9A-Fa-f:.]+\]|[A-Za-z0-9._-]+)(?::\d{1,5})?(?:[/?]\S*)?$/

/** Plain `http` would show the alarms of a studio to everybody on the way, so it stays inside the house. */
function isWebhookUrl(text: string): boolean {
  const [, scheme, host] = URL_PARTS.exec(text) ?? []
  if (scheme === undefined || host === undefined) return false
  return scheme === 'https' || isHostAtHome(host)
}

/** Loopback and private addresses (RFC 1918, RFC 4193, RFC 3927) and names that no public name server knows. */
function isHostAtHome(host: string): boolean {
  if (host.startsWith('[')) return /^\[(::1|f[cd][0-9a-f]{2}:.*|fe80:.*)\]$/i.test(host)
  if (/^[\d.]+$/.test(host)) return /^(127\.|10\.|192\.168\.|169\.254\.|172\.(1[6-9]|2\d|3[01])\.)/.test(host)
  return !host.includes('.') || /\.(local|lan|internal|home\.arpa)$/i.test(host)
}

/** What a browser gives when somebody there asks for push (the Push API's subscription). */
export const pushSubscription = z.object({
  endpoint: z.string().max(2048).refine(isPushEndpoint, 'an https:// address of a push service'),
  keys: z.object({
    /** An uncompressed point of P-256: 65 bytes, base64url (RFC 8291 §3.1). */
    p256dh: z.string().regex(/^B[A-Za-z0-9_-]{86}=?$/, 'a public key of 65 bytes in base64url'),
    /** 16 bytes, base64url (RFC 8291 §3.2). */
    auth: z.string().regex(/^[A-Za-z0-9_-]{22}(==)?$/, 'a secret of 16 bytes in base64url'),
  }),
})
/** How the person at a phone reads; what is pushed to it is worded so. */
export const phonePerson = z.strictObject({ unit: unitField, zone: zoneField, language: languageField })

export type PushSubscriptionRecord = z.infer<typeof pushSubscription>

/** Nobody may make this computer post to a computer of the house by calling it a push service. */
function isPushEndpoint(text: string): boolean {
  const [, scheme, host] = URL_PARTS.exec(text) ?? []
  return scheme === 'https' && host !== undefined && !isHostAtHome(host)
}

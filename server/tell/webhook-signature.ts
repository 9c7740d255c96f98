import { createHmac } from 'node:crypto'

/**
 * The headers of a signed webhook after the open Standard Webhooks specification (scheme `v1`): an HMAC-SHA256
 * with the decoded secret over `id.timestamp.body`. The receiver refuses a timestamp that is minutes old, so
 * that a letter that was overheard can't be sent again.
 * @param secret base64, `whsec_` may stand before it
 * @param atMs   when it is sent, Unix ms; the header is in whole seconds
 */
export function signedHeaders(
  secret: string,
  id: string,
  atMs: number,
  body: string,
): Record<string, string> {
  const key = Buffer.from(secret.replace(/^whsec_/, ''), 'base64')
  const timestamp = String(Math.floor(atMs / 1000))
  const mac = createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')
  return { 'webhook-id': id, 'webhook-timestamp': timestamp, 'webhook-signature': `v1,${mac}` }
}

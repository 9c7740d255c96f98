import { createDecipheriv, createECDH, hkdfSync } from 'node:crypto'

/** The keys of a browser that asked for push; all base64url. */
export interface ReceiverKeys {
  readonly privateKey: string
  readonly publicKey: string
  readonly auth: string
}

/**
 * Opens a push message as a browser does, written after RFC 8291 §3.4 and RFC 8188 §2 and from nothing else.
 * Takes one record; throws when the message was not made for these keys.
 */
export function openPushMessage(keys: ReceiverKeys, body: Buffer): string {
  const salt = body.subarray(0, 16)
  const keyLength = body.readUInt8(20)
  const senderKey = body.subarray(21, 21 + keyLength)
  const sealed = body.subarray(21 + keyLength)
  const receiver = createECDH('prime256v1')
  receiver.setPrivateKey(Buffer.from(keys.privateKey, 'base64url'))
  const shared = receiver.computeSecret(senderKey)
  const info = Buffer.concat([
    Buffer.from('WebPush: info\0'),
    Buffer.from(keys.publicKey, 'base64url'),
    senderKey,
  ])
  const secret = Buffer.from(hkdfSync('sha256', shared, Buffer.from(keys.auth, 'base64url'), info, 32))
  const key = Buffer.from(hkdfSync('sha256', secret, salt, 'Content-Encoding: aes128gcm\0', 16))
  const nonce = Buffer.from(hkdfSync('sha256', secret, salt, 'Content-Encoding: nonce\0', 12))
  const cipher = createDecipheriv('aes-128-gcm', key, nonce)
  cipher.setAuthTag(sealed.subarray(-16))
  const padded = Buffer.concat([cipher.update(sealed.subarray(0, -16)), cipher.final()])
  return padded.subarray(0, padded.lastIndexOf(2)).toString('utf8')
}

import webpush from 'web-push'
import { z } from 'zod'
import { type Kept, KeptFile } from './kept.ts'

/** The key pair by which push services know this server (RFC 8292), base64url. A new pair would cut off every phone. */
export interface VapidKeys {
  readonly publicKey: string
  readonly privateKey: string
}

const vapidKeys = z.object({
  publicKey: z.string().regex(/^[A-Za-z0-9_-]{87}$/),
  privateKey: z.string().regex(/^[A-Za-z0-9_-]{43}$/),
})

/** Where the pair is kept: a file of the data folder. */
export const keptVapidKeys = (path: string): Kept<VapidKeys> =>
  new KeptFile(path, (json) => vapidKeys.safeParse(json).data ?? null)

/** The pair of this server: made at the first start, the same for ever after. */
export async function openVapidKeys(kept: Kept<VapidKeys>): Promise<VapidKeys> {
  const known = await kept.load()
  if (known !== null) return known
  const made = webpush.generateVAPIDKeys()
  await kept.save(made)
  return made
}

import { z } from 'zod'
import type { Person } from '#core/words/person'
import { type PushSubscriptionRecord, phonePerson, pushSubscription } from '#core/wire/tell-settings'
import { type Kept, KeptFile } from './kept.ts'

/** A browser that asked for push. `title`: what its owner calls it. */
export interface Phone {
  readonly subscription: PushSubscriptionRecord
  readonly title: string
  readonly addedMs: number
  /** How its owner reads; `null`: as the studio does. */
  readonly person: Person | null
}

const phone = z.object({
  subscription: pushSubscription,
  title: z.string(),
  addedMs: z.number(),
  // Lists of earlier versions don't have it.
  person: phonePerson.nullable().default(null),
})

/** Where phones are kept: a file of the data folder. */
export const keptPhones = (path: string): Kept<readonly Phone[]> =>
  new KeptFile(path, (json) => z.array(phone).safeParse(json).data ?? null)

import { z } from 'zod'
import { title } from './api-fields.ts'
import { phonePerson, pushSubscription } from './tell-settings.ts'

/** What the addresses about getting through to people take and give. */

const awakeAnswer = z.object({
  kind: z.enum(['not-needed', 'kept-awake', 'may-sleep']),
  why: z.string().optional(),
})

export const whoHearsAnswer = z.object({
  pages: z.number().describe('open pages whose sound is on'),
  phones: z.array(z.string()),
  lamp: z.enum(['none', 'connected', 'away']),
  webhook: z.boolean(),
  computer: awakeAnswer.describe('whether this computer is kept from sleeping'),
})

export const testAlarmAnswer = z.object({
  testId: z.number(),
  startedMs: z.number(),
  called: z.object({ pages: z.number(), phones: z.number(), lamp: z.boolean(), webhook: z.boolean() }),
  answers: z.array(z.object({ device: z.string(), atMs: z.number() })),
})
export const heardBody = z.strictObject({ device: title })

export const phoneBody = z.strictObject({
  subscription: pushSubscription,
  title,
  /** Left out: as the studio's settings say. */
  person: phonePerson.optional(),
})
export const phoneAnswer = z.object({ id: z.string(), title: z.string(), addedMs: z.number() })
export const pushAnswer = z.object({
  publicKey: z.string().nullable().describe('what a browser needs to ask for push; null: push is off'),
  phones: z.array(phoneAnswer),
})

export const webhookAnswer = z.object({
  isSet: z.boolean(),
  waiting: z.number(),
  dead: z.array(
    z.object({
      id: z.string(),
      madeMs: z.number(),
      gaveUpMs: z.number(),
      why: z.string(),
      body: z.string(),
    }),
  ),
})

export const morningAnswer = z.object({
  fromMs: z.number(),
  toMs: z.number(),
  isQuiet: z.boolean().describe('nothing on it asks for an act'),
  items: z.array(z.looseObject({ kind: z.string(), text: z.string() })),
})

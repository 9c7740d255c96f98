import { z } from 'zod'
import { signal } from '../signal-settings.ts'
import { common } from './common.ts'

export const mqtt = z.strictObject({
  ...common,
  kind: z.literal('mqtt'),
  url: z
    .string()
    .regex(/^(mqtts?|wss?|ssl|tls|tcp):\/\/.+/, 'allowed is an address like mqtt://127.0.0.1:1883'),
  topic: z.string().min(1).max(512).superRefine(checkTopicFilter),
  /** What a message holds. */
  payload: z
    .union([
      z.enum(['number', 'senml']),
      z.strictObject({ pointer: jsonPointer(), battery: jsonPointer().optional() }),
    ])
    .default('number'),
  unit: z.enum(['C', 'F']).default('C'),
  signal: signal.optional(),
  /** With `+` or `#` in the topic: which level of it is the probe's name, counted from 0; else the source's name. */
  nameLevel: z.number().int().min(0).max(64).optional(),
  /** A device's last will: on this topic this text means that it is gone. */
  gone: z
    .strictObject({
      topic: z.string().min(1).max(512).superRefine(checkTopicFilter),
      payload: z.string().max(256),
    })
    .optional(),
  user: z.string().max(256).optional(),
  password: z.string().max(256).optional(),
  /** File of a certificate authority's certificate, PEM. */
  caFile: z.string().min(1).max(1024).optional(),
  version: z.union([z.literal(4), z.literal(5)]).default(4),
})

function checkTopicFilter(topic: string, context: z.RefinementCtx): void {
  const levels = topic.split('/')
  const wrong = levels.some(
    (level, i) =>
      (level.includes('#') && (level !== '#' || i < levels.length - 1)) ||
      (level.includes('+') && level !== '+'),
  )
  if (wrong || topic.includes('\u0000')) {
    context.addIssue({
      code: 'custom',
      message: 'allowed is + as a whole level and # as the whole last level (MQTT §4.7)',
    })
  }
}

function jsonPointer() {
  return z
    .string()
    .max(256)
    .regex(/^(\/([^~/]|~0|~1)*)*$/, 'allowed is a JSON Pointer like /ds/temp (RFC 6901)')
}

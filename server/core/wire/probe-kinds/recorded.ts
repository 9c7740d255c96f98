import { z } from 'zod'
import { common } from './common.ts'

export const recorded = z.strictObject({
  ...common,
  kind: z.literal('recorded'),
  /** A trace file (CSV). */
  file: z.string().min(1).max(1024),
  speed: z.number().min(0.1).max(10_000).default(1),
  repeat: z.boolean().default(false),
})

import { z } from 'zod'

const number = z.number().refine(Number.isFinite)
/** One record of a SenML pack in JSON (RFC 8428 §5), with the extension fields of a bridge. Further fields stay. */
export const senmlRecord = z.looseObject({
  bn: z.string().optional(),
  bt: number.optional(),
  bu: z.string().optional(),
  bv: number.optional(),
  bver: z.number().optional(),
  n: z.string().optional(),
  t: number.optional(),
  u: z.string().optional(),
  v: number.optional(),
  vs: z.string().optional(),
  boot: z.string().min(1).max(64).optional(),
  seq: z.number().int().nonnegative().max(Number.MAX_SAFE_INTEGER).optional(),
})
export type SenmlRecord = z.infer<typeof senmlRecord>

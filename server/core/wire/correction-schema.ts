import { z } from 'zod'
import type { Correction } from '../measure/correction.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'

const finite = z.number()
const point = z.strictObject({ rawC: finite.min(-20).max(110), trueC: finite.min(-20).max(110) }).readonly()
const dated = {
  fromMs: z.number().int(),
  who: z.string().min(1).max(80).optional(),
  note: z.string().max(500).optional(),
}

const offset = z.strictObject({
  kind: z.literal('offset'),
  ...dated,
  offsetC: finite.min(-20).max(20),
  check: point.optional(),
})
const twoPoint = z
  .strictObject({ kind: z.literal('two-point'), ...dated, low: point, high: point })
  .refine((c) => Math.abs(c.high.rawC - c.low.rawC) >= 1, 'the two readings must be at least 1 °C apart')
const line = z.strictObject({
  kind: z.literal('line'),
  ...dated,
  refC: finite,
  atRefC: finite.min(-20).max(20),
  slope: finite.min(-0.5).max(0.5),
  uAtRefC: finite.min(0),
  uSlope: finite.min(0),
  correlation: finite.min(-1).max(1),
  residualC: finite.min(0),
  points: z.array(point).max(100).readonly(),
})
const schema = z.discriminatedUnion('kind', [offset, twoPoint, line])

export type DecodedCorrection =
  | { readonly ok: true; readonly correction: Correction }
  | { readonly ok: false; readonly why: string }

/** A correction as it comes from outside, or what is wrong with it in one sentence. */
export function decodeCorrection(input: unknown): DecodedCorrection {
  const parsed = schema.safeParse(input)
  if (parsed.success) return { ok: true, correction: parsed.data as Correction }
  const issue = parsed.error.issues[0]!
  return { ok: false, why: `correction: ${explainIssue(issue, input, (path) => knownFields(schema, path))}` }
}

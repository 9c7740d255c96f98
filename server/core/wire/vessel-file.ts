import { z } from 'zod'
import { BURNER_KINDS, type Vessel } from '../bath/vessel.ts'
import { explainIssue } from './explain-issue.ts'

export type DecodedVessel =
  | { readonly ok: true; readonly vessel: Vessel }
  | { readonly ok: false; readonly why: string }

const within = (low: number, high: number) => z.number().gte(low).lte(high)

const BURNER = z.strictObject({
  kind: z.enum(BURNER_KINDS).exactOptional(),
  dialMax: within(0.1, 1000),
  ratedW: within(1, 100_000).exactOptional(),
})

export const vesselSchema = z.strictObject({
  title: z.string().exactOptional(),
  litres: within(0.01, 1000),
  diameterCm: within(2, 300).exactOptional(),
  emptyKg: within(0, 500).exactOptional(),
  material: z.string().exactOptional(),
  surroundingsC: within(-20, 50).exactOptional(),
  altitudeM: within(-500, 6000).exactOptional(),
  burner: BURNER,
})

/** What a vessel file holds, after JSON parsing. Strict: an unknown field or a value out of range is refused. */
export function decodeVessel(json: unknown): DecodedVessel {
  const decoded = vesselSchema.safeParse(json)
  if (decoded.success) return { ok: true, vessel: decoded.data }
  return { ok: false, why: explainIssue(decoded.error.issues[0]!, json, fieldsAt) }
}

const fieldsAt = (path: readonly PropertyKey[]): readonly string[] =>
  Object.keys(path[0] === 'burner' ? BURNER.shape : vesselSchema.shape)

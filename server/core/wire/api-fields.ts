import { z } from 'zod'
import type { PotRecord } from './records.ts'
import { vesselSchema } from './vessel-file.ts'
import { visibleLine } from './visible-line.ts'

/** Fields that several addresses of the HTTP interface share. */

/** A time with `Z` or an offset → Unix ms. A time without a zone is refused. */
export const isoTime = z.iso
  .datetime({ offset: true, error: 'a time like 2026-01-10T08:00:00Z, with Z or an offset' })
  .transform((text) => Date.parse(text))

/** A whole number out of an address: `/api/batches/7`. */
export const idText = z
  .string()
  .regex(/^\d{1,15}$/, 'a whole number')
  .transform(Number)

export const countText = (most: number, otherwise: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/, 'a whole number')
    .transform(Number)
    .pipe(z.number().min(1).max(most))
    .default(otherwise)

export const title = visibleLine(120)
export const who = visibleLine(80).nullable().default(null)
export const potId = z
  .string()
  .regex(/^[\p{L}\p{N}][\p{L}\p{N}-]{0,63}$/u, 'a pot’s id: letters, digits and hyphens')
/** As SenML names a probe (RFC 8428 §4.5.1). */
export const probe = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9\-:./_]{0,199}$/, 'a probe’s name')
export const atMs = z.number().int().nonnegative().max(8_640_000_000_000_000)

const tempC = z.number().nullable()
const ms = z.number().nullable()

/** What answers look like, for the OpenAPI document. */
export const potAnswer = z.object({
  id: z.string(),
  title: z.string(),
  vessel: vesselSchema.nullable(),
  probe: z.string().nullable(),
}) satisfies z.ZodType<PotRecord>
export const eventAnswer = z.object({
  id: z.number(),
  atMs: z.number(),
  notedMs: z.number(),
  potId: z.string().nullable(),
  batchId: z.number().nullable(),
  stageId: z.string().nullable(),
  event: z.looseObject({ kind: z.string() }),
  who: z.string().nullable(),
  struckMs: ms,
})
export const alarmAnswer = z.object({
  id: z.number(),
  alarmId: z.number(),
  alarm: z.string(),
  urgency: z.string(),
  state: z.string(),
  potId: z.string(),
  batchId: z.number().nullable(),
  stageId: z.string().nullable(),
  sinceMs: z.number(),
  raisedMs: z.number(),
  clearedMs: ms,
  acknowledgedMs: ms,
  acknowledgedBy: z.string().nullable(),
  foundLate: z.boolean(),
  tempC,
  limitC: tempC,
  peakC: tempC,
  /** In the studio's unit and language; a page words the facts again for its own person. */
  text: z.string(),
  facts: z.looseObject({ kind: z.literal('alarm') }).optional(),
})
export const doneAnswer = z.object({ ok: z.literal(true) })

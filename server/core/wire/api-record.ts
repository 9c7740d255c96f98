import { z } from 'zod'
import { atMs, countText, idText, isoTime, potId, title, who } from './api-fields.ts'
import { visibleLine } from './visible-line.ts'

/** What is asked and answered about the record, looking up, stock and reports. */

const grams = z.number().gte(0).lte(1_000_000)
const one = visibleLine(200)

/** `facet=lot:R-11`, several times for several. */
const facet = z
  .string()
  .regex(/^(fibre|additive|lot|pot|probe|burner|owner):.+$/, 'a facet like lot:R-11')
  .max(240)
export const findQuery = z.strictObject({
  text: z.string().max(200).optional(),
  facet: z.union([facet, z.array(facet).max(8)]).optional(),
  from: isoTime.optional(),
  to: isoTime.optional(),
  before: idText.optional(),
  limit: countText(200, 50),
})
export const shadesQuery = z.strictObject({ additive: one.optional(), limit: countText(500, 200) })
export const compareQuery = z.strictObject({
  ids: z.string().regex(/^\d{1,15}(,\d{1,15}){1,5}$/, 'two to six numbers of batches, as in 3,7'),
})
export const differsQuery = z.strictObject({ from: idText })

/** `step`: of the scale, g. `litres`: what is in the pot, for amounts in g/L without a liquor ratio. */
export const needsQuery = z.strictObject({
  step: z
    .string()
    .regex(/^\d{1,3}(\.\d{1,3})?$/, 'a step of the scale in grams, as in 0.1')
    .transform(Number)
    .pipe(z.number().positive())
    .default(0.1),
  litres: z
    .string()
    .regex(/^\d{1,4}(\.\d{1,2})?$/, 'litres, as in 18')
    .transform(Number)
    .pipe(z.number().positive())
    .optional(),
})
/** Pixels of a patch of a photo, sRGB bytes. */
const patch = z
  .array(z.tuple([z.int().gte(0).lte(255), z.int().gte(0).lte(255), z.int().gte(0).lte(255)]))
  .min(1)
  .max(2500)
/** What a patch really is: a grey card, a colour as measured, or the result of a batch. */
const knownColour = z.union([
  z.literal('grey-card'),
  z.strictObject({
    lightness: z.number().gte(0).lte(100),
    a: z.number().gte(-200).lte(200),
    b: z.number().gte(-200).lte(200),
  }),
  z.strictObject({ batchId: z.number().int().positive() }),
])
export const photoColourAsk = z.strictObject({
  goods: patch,
  known: z
    .array(z.strictObject({ seen: patch, is: knownColour }))
    .min(1)
    .max(24),
})

export const costAnswer = z.object({
  cost: z.object({
    goods: z.number(),
    materials: z.number(),
    energy: z.number(),
    work: z.number(),
    total: z.number(),
    unknown: z.array(z.string()),
  }),
  energy: z.object({ kWh: z.number(), from: z.enum(['typed', 'dial', 'warming']) }).nullable(),
  pricePerKWh: z.number().nullable(),
  currency: z.string().nullable(),
  share01: z.number().nullable(),
})

export const repeatAsk = z.strictObject({ title, dryWeightG: z.number().positive().max(1_000_000) })

export const newLot = z.strictObject({
  material: one,
  lot: one,
  harvestYear: z.number().int().min(1900).max(2200).exactOptional(),
  pricePerKg: z.number().gte(0).lte(1_000_000).exactOptional(),
  /** What came in, if it is put down at once. */
  receivedG: grams.optional(),
  who,
})
export const newStockEvent = z.strictObject({
  kind: z.enum(['received', 'discarded', 'counted']),
  grams,
  atMs: atMs.optional(),
  who,
})

export const newClass = z.strictObject({
  title,
  planId: z.number().int().positive(),
  dryWeightG: z.number().positive().max(100_000),
  pots: z
    .array(
      z.strictObject({
        potId,
        planId: z.number().int().positive().optional(),
        dryWeightG: z.number().positive().max(100_000).optional(),
      }),
    )
    .min(1)
    .max(24),
})

/** For whom a report is printed; what is left out is as in the settings. */
export const reportQuery = z.strictObject({
  unit: z.enum(['C', 'F']).optional(),
  weights: z.enum(['metric', 'us']).default('metric'),
  zone: z.string().max(64).optional(),
  language: z.enum(['en', 'de']).optional(),
  format: z.enum(['html', 'pdf']).default('html'),
})
export const archiveQuery = reportQuery.omit({ format: true })
/** Names on a class page come with the question and are kept nowhere. */
export const classPageQuery = reportQuery.extend({ pupils: z.string().max(500).default('') })

/** A trace file's text as it stands, header first. */
export const traceImport = z.strictObject({
  batchId: z.number().int().positive(),
  csv: z.string().min(1).max(20_000_000),
})

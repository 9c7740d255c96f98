import { z } from 'zod'
import { GREY_GRADES } from '../batch/grey-grades.ts'
import type { RecordBodies, RecordKind } from '../batch/record-line.ts'
import { visibleLine } from './visible-line.ts'

const word = visibleLine(200)
const text = z.string().trim().min(1).max(5000)
const grams = z.number().gte(0).lte(1_000_000)
const ph = z.number().gte(0).lte(14)
const money = z.number().gte(0).lte(10_000_000)
const score = z.number().int().gte(1).lte(5)
const stageId = word.exactOptional()
const batchId = z.number().int().positive()

const lab = z.strictObject({
  lightness: z.number().gte(0).lte(100).describe('CIELAB L*, D65, 2°'),
  a: z.number().gte(-200).lte(200),
  b: z.number().gte(-200).lte(200),
})

/** The body of every sort of line, strict. */
export const RECORD_BODY_SCHEMAS = {
  goods: z.strictObject({
    what: word.exactOptional(),
    fibre: word.exactOptional(),
    source: word.exactOptional(),
    dryWeightG: grams.exactOptional(),
    wetWeightG: grams.exactOptional(),
    condition: word.exactOptional(),
    pieces: z.number().int().gte(1).lte(100_000).exactOptional(),
    owner: word.exactOptional(),
    lot: word.exactOptional(),
  }),
  water: z.strictObject({
    source: word.exactOptional(),
    hardnessMgL: z.number().gte(0).lte(5000).exactOptional(),
    ph: ph.exactOptional(),
    litres: z.number().gte(0).lte(10_000).exactOptional(),
  }),
  preparation: z.strictObject({
    what: word,
    batchId: batchId.exactOptional(),
    lot: word.exactOptional(),
    doneMs: z.number().int().exactOptional(),
  }),
  weighing: z.strictObject({
    stageId: word,
    additive: word,
    plannedG: grams.exactOptional(),
    weighedG: grams,
    lotId: z.number().int().positive().exactOptional(),
    lot: word.exactOptional(),
  }),
  'dye-bath': z.strictObject({
    form: word.exactOptional(),
    extraction: text.exactOptional(),
    use: z.number().int().gte(1).lte(20).exactOptional(),
    ofBatchId: batchId.exactOptional(),
  }),
  equipment: z.strictObject({
    burner: word.exactOptional(),
    lid: word.exactOptional(),
    probePlace: word.exactOptional(),
  }),
  ph: z.strictObject({
    ph,
    stageId,
    when: z.enum(['start', 'after-dye', 'end']).exactOptional(),
    by: z.enum(['strip', 'meter']).exactOptional(),
    sampleC: z.number().gte(-5).lte(105).exactOptional(),
  }),
  check: z.strictObject({
    stageId,
    place: z.enum(['top', 'middle', 'bottom']),
    tempC: z.number().gte(-5).lte(105),
  }),
  photo: z.strictObject({
    fileId: word,
    of: z.enum(['bath', 'wet', 'dry', 'other']),
    caption: word.exactOptional(),
  }),
  result: z.strictObject({
    words: text.exactOptional(),
    referenceBatchId: batchId.exactOptional(),
    match: z
      .enum(['same', 'better', 'lighter', 'darker', 'duller', 'redder', 'yellower', 'bluer'])
      .exactOptional(),
    matchScore: score.exactOptional(),
    lab: lab.exactOptional(),
    labFrom: z.enum(['meter', 'photo']).exactOptional(),
    evenness: score.exactOptional(),
    handle: score.exactOptional(),
  }),
  fastness: z.strictObject({
    test: z.enum(['wash', 'rub', 'light']),
    grade: z.enum([...GREY_GRADES, '6', '7', '8']),
    where: z.enum(['home', 'lab']),
    note: text.exactOptional(),
  }),
  cost: z.strictObject({
    goodsCost: money.exactOptional(),
    energyKWh: z.number().gte(0).lte(10_000).exactOptional(),
    pricePerKWh: money.exactOptional(),
    handsOnMin: z.number().gte(0).lte(100_000).exactOptional(),
    hourlyWage: money.exactOptional(),
    currency: z.string().trim().min(1).max(8).exactOptional(),
  }),
  note: z.strictObject({ text, stageId }),
  withdrawn: z.strictObject({}),
} as const satisfies { readonly [K in RecordKind]: z.ZodType<RecordBodies[K]> }

export const RECORD_KINDS = Object.keys(RECORD_BODY_SCHEMAS) as readonly RecordKind[]

import { z } from 'zod'
import { planFileSchema } from './plan-schema.ts'
import { RECORD_KINDS } from './record-line-schema.ts'

const time = z.iso.datetime({ offset: true }).describe('ISO 8601 with Z or an offset')
const tempC = z.number().nullable().describe('°C')

const holdBins = z.strictObject({
  requiredS: z.number(),
  inWindowS: z.number(),
  aboveWindowS: z.number(),
  belowWindowS: z.number(),
  aboveCeilingS: z.number(),
  unknownS: z.number(),
  goodsOutS: z.number(),
})

const stageRun = z.strictObject({
  stageId: z.string(),
  pot: z.string(),
  probe: z.string().nullable(),
  startedAt: time,
  endedAt: time.nullable(),
  bins: holdBins.nullable().describe('seconds; null for a stage without a hold'),
  minC: tempC,
  maxC: tempC,
  doneAt: time.nullable(),
  trace: z.array(z.tuple([time, z.number()])).describe('corrected readings that were believed, °C'),
})

const recordLine = z.strictObject({
  id: z.number().int(),
  at: time.describe('when it was so'),
  notedAt: time.describe('when it was written down'),
  who: z.string().nullable(),
  kind: z.enum(RECORD_KINDS),
  body: z.record(z.string(), z.unknown()),
  replaces: z.number().int().nullable().describe('the line that this one corrects or takes back'),
})

/** A whole batch as a file: plan, stages with their traces, events, alarms, every line of the record. */
export const batchFileSchema = z.strictObject({
  format: z.literal('holdfast-batch-1'),
  id: z.number().int(),
  title: z.string(),
  madeAt: time,
  state: z.enum(['planned', 'running', 'ended']),
  fibre: z.string().nullable(),
  dryWeightG: z.number().nullable(),
  bathOf: z
    .number()
    .int()
    .nullable()
    .describe('the batch whose bath this lot lay in: stages, events and alarms are those of that bath'),
  lots: z
    .array(z.strictObject({ id: z.number().int(), title: z.string(), dryWeightG: z.number().nullable() }))
    .describe('all lots of the bath; empty when this was the only one'),
  plan: planFileSchema,
  stages: z.array(stageRun),
  events: z.array(
    z.strictObject({
      at: time,
      notedAt: time,
      stageId: z.string().nullable(),
      pot: z.string().nullable(),
      event: z.string().describe('a word of the trace file'),
      who: z.string().nullable(),
    }),
  ),
  alarms: z.array(
    z.strictObject({
      alarm: z.string(),
      urgency: z.string(),
      stageId: z.string().nullable(),
      sinceAt: time,
      raisedAt: time,
      clearedAt: time.nullable(),
      acknowledgedAt: time.nullable(),
      acknowledgedBy: z.string().nullable(),
      limitC: tempC,
      peakC: tempC,
      text: z.string(),
    }),
  ),
  record: z.array(recordLine),
})
export type BatchFile = z.infer<typeof batchFileSchema>

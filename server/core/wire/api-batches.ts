import { z } from 'zod'
import { alarmAnswer, atMs, eventAnswer, potId, probe, title, who } from './api-fields.ts'

/** Grams; `null`: not weighed. */
const dryWeightG = z.number().positive().max(1_000_000).nullable()

export const newBatch = z.strictObject({
  title,
  planId: z.number().int().positive(),
  /** The newest when left out. */
  planVersion: z.number().int().positive().optional(),
  dryWeightG: dryWeightG.default(null),
})
/** A lot that lies in a batch's bath: its goods have a weight of their own. */
export const newBathLot = z.strictObject({
  title,
  dryWeightG: dryWeightG.default(null),
  who,
})
export const changedBatch = z.strictObject({
  title: title.optional(),
  dryWeightG: dryWeightG.optional(),
  who,
})
export const stageStart = z.strictObject({
  potId,
  /** The probe that hangs in the pot when left out. */
  probe: probe.nullable().optional(),
  /** When it began, if that was earlier. */
  atMs: atMs.optional(),
  who,
})
export const newEvent = z.strictObject({
  /** One of the words of the trace file. */
  event: z.string().min(1).max(200),
  /** When it happened, if that was earlier. */
  atMs: atMs.optional(),
  who,
})
export const batchEnd = z.strictObject({ atMs: atMs.optional(), who })
export const newEntry = z.strictObject({
  kind: z.string().regex(/^[a-z][a-z0-9-]{0,39}$/, 'a word of small letters'),
  body: z.record(z.string(), z.json()),
  atMs: atMs.optional(),
  replaces: z.number().int().positive().nullable().default(null),
  who,
})

const summary = {
  id: z.number(),
  title: z.string(),
  planId: z.number(),
  planTitle: z.string(),
  fibre: z.string().nullable(),
  dryWeightG: z.number().nullable(),
  madeMs: z.number(),
  state: z.enum(['planned', 'running', 'ended']),
  potId: z.string().nullable(),
  bathOf: z.number().nullable(),
}
export const batchSummaryAnswer = z.object(summary)
export const stageRunAnswer = z.object({
  id: z.number(),
  batchId: z.number(),
  stageId: z.string(),
  potId: z.string(),
  probe: z.string().nullable(),
  startedMs: z.number(),
  endedMs: z.number().nullable(),
  litres: z.number().nullable().optional().describe('water in the pot then'),
  outcome: z.looseObject({}).nullable(),
})
export const entryAnswer = z.object({
  id: z.number(),
  batchId: z.number(),
  atMs: z.number(),
  notedMs: z.number(),
  who: z.string().nullable(),
  kind: z.string(),
  body: z.unknown(),
  replaces: z.number().nullable(),
})
export const batchAnswer = z.object({
  ...summary,
  planVersion: z.number(),
  plan: z.looseObject({ title: z.string() }),
  lots: z.array(z.object({ id: z.number(), title: z.string(), dryWeightG: z.number().nullable() })),
  stages: z.array(stageRunAnswer),
  events: z.array(eventAnswer),
  alarms: z.array(alarmAnswer),
  entries: z.array(entryAnswer),
})

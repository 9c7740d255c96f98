import { join } from 'node:path'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { batchFileSchema } from '#core/wire/batch-file'
import { decodePlan } from '#core/wire/plan-file'
import { planFileSchema } from '#core/wire/plan-schema'
import { reportBatch } from '../../kit/report-batch.ts'
import { batchJson } from '../../../server/report/batch-json.ts'

const schemaFile = (name: string) => join(import.meta.dirname, '../../../docs/schema', `${name}.json`)
const asText = (schema: z.ZodType, id: string) =>
  `${JSON.stringify({ $id: `holdfast:${id}`, ...z.toJSONSchema(schema) }, null, 2)}\n`

// `npx vitest -u test/server/report/schema.test.ts` writes them anew.
test('the published schemas are those the program reads and writes by', async () => {
  await expect(asText(planFileSchema, 'plan')).toMatchFileSnapshot(schemaFile('plan'))
  await expect(asText(batchFileSchema, 'batch')).toMatchFileSnapshot(schemaFile('batch'))
})

test('a batch goes out by its published schema, and its plan can be read again', () => {
  const file = batchJson(reportBatch(), [])
  const there = batchFileSchema.safeParse(JSON.parse(JSON.stringify(file)))
  expect(there.error?.issues).toBeUndefined()
  expect(decodePlan(file.plan)).toMatchObject({ ok: true })
  expect(file.stages[0]?.bins?.inWindowS).toBe(53 * 60)
  expect(file.stages[0]?.trace[0]?.[0]).toBe('2026-03-12T08:00:00.000Z')
})

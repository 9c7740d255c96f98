import { z } from 'zod'
import { parseTemplate } from '../../measure/line-template.ts'
import { signal } from '../signal-settings.ts'
import { common, probeName, seconds } from './common.ts'
import { port } from './port.ts'

const template = z
  .string()
  .min(1)
  .max(256)
  .superRefine((text, context) => {
    const parsed = parseTemplate(text)
    if (!parsed.ok) context.addIssue({ code: 'custom', message: parsed.why })
  })

/** Several probes in one line: their names in the order of the value fields, or by the names that the line gives. */
const names = z
  .union([z.array(probeName).min(1).max(64).readonly(), z.record(z.string(), probeName).readonly()])
  .optional()

export const serialLines = z.strictObject({
  ...common,
  kind: z.literal('serial-lines'),
  ...port,
  line: template,
  names,
  signal: signal.optional(),
  /** Sent once after opening; escapes \r \n \t and \xHH are understood. */
  wake: z.string().min(1).max(256).optional(),
  /** For devices that answer only when asked. */
  ask: z.strictObject({ query: z.string().min(1).max(256), everyS: seconds(0.1, 3600) }).optional(),
})

import { z } from 'zod'
import { common } from './common.ts'
import { port } from './port.ts'

export const serialSenml = z.strictObject({
  ...common,
  kind: z.literal('serial-senml'),
  ...port,
  wake: z.string().min(1).max(256).optional(),
})

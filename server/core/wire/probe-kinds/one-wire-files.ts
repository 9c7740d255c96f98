import { z } from 'zod'
import { common, probeName, seconds } from './common.ts'

export const oneWireFiles = z.strictObject({
  ...common,
  kind: z.literal('one-wire-files'),
  folder: z.string().min(1).max(1024).default('/sys/bus/w1/devices'),
  /** Probe's name by the device's number (`28-0316a2794bff`); with none, every device is a probe by its number. */
  devices: z.record(z.string().regex(/^[0-9a-f]{2}-[0-9a-f]{12}$/), probeName).optional(),
  everyS: seconds(0.5, 3600).default(1),
})

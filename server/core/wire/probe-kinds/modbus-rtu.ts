import { z } from 'zod'
import { signal } from '../signal-settings.ts'
import { common, probeName, seconds } from './common.ts'
import { port } from './port.ts'

const register = z.strictObject({
  /** The probe that this register is; the source's own name when left out. */
  name: probeName.optional(),
  station: z.number().int().min(1).max(247).default(1),
  function: z.union([z.literal(3), z.literal(4)]).default(3),
  /** As sent on the wire: counted from 0. */
  address: z.number().int().min(0).max(65_535),
  type: z.enum(['int16', 'uint16', 'int32', 'float32']).default('int16'),
  wordOrder: z.enum(['big', 'little']).default('big'),
  scale: z.number().default(1),
  offset: z.number().default(0),
  unit: z.enum(['C', 'F']).default('C'),
  signal: signal.optional(),
})
export type ModbusRegister = z.infer<typeof register>

export const modbusRtu = z.strictObject({
  ...common,
  kind: z.literal('modbus-rtu'),
  ...port,
  registers: z.array(register).min(1).max(64),
  everyS: seconds(0.1, 3600).default(1),
  timeoutMs: z.number().int().min(20).max(10_000).default(500),
})

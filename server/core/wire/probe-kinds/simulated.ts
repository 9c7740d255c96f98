import { z } from 'zod'
import type { ScriptedChange } from '../../bath/pot-script.ts'
import { common, seconds } from './common.ts'

const scripted: z.ZodType<ScriptedChange> = z.strictObject({
  /** Seconds from the start; what lies before it has been lived through when the pot is first read. */
  atS: z.number().min(-1e7).max(1e7),
  dial: z.number().min(0).exactOptional(),
  lid: z.enum(['on', 'off']).exactOptional(),
  goodsIn: z
    .strictObject({ dryKg: z.number().positive(), waterKg: z.number().min(0).default(0), tempC: z.number() })
    .exactOptional(),
  goodsOut: z
    .strictObject({ dryKg: z.number().positive(), waterKg: z.number().min(0).default(0) })
    .exactOptional(),
  topUp: z.strictObject({ litres: z.number().positive(), tempC: z.number() }).exactOptional(),
  probe: z.enum(['in', 'out', 'unplugged']).exactOptional(),
})

const vessel = z.strictObject({
  title: z.string().optional(),
  litres: z.number().positive().max(1000),
  diameterCm: z.number().positive().optional(),
  emptyKg: z.number().positive().optional(),
  material: z.string().optional(),
  surroundingsC: z.number().min(-20).max(60).optional(),
  altitudeM: z.number().min(-500).max(6000).optional(),
  burner: z.strictObject({
    kind: z.enum(['coil', 'plate', 'gas', 'induction']).optional(),
    dialMax: z.number().positive(),
    ratedW: z.number().positive().optional(),
  }),
})

export const simulated = z.strictObject({
  ...common,
  kind: z.literal('simulated'),
  vessel,
  startC: z.number().min(0).max(100).default(20),
  dial: z.number().min(0).default(0),
  lid: z.enum(['on', 'off']).default('on'),
  script: z.array(scripted).max(1000).default([]),
  /** A file that says how dial and lid stand now (`{"dial":3,"lid":"on"}`), for a pot that obeys somebody. */
  knobs: z.string().min(1).max(1024).optional(),
  /** Share of full power, 0…1, at equal steps of the dial: no two burners are alike. */
  dialCurve: z.array(z.number().min(0).max(1)).min(2).max(101).optional(),
  lossFactor: z.number().min(0.1).max(10).default(1),
  /** Standard deviation of the probe's noise, °C. */
  noiseC: z.number().min(0).max(5).default(0.03),
  seed: z.number().int().default(1),
  periodS: seconds(0.1, 600).default(1),
  /** How much faster than true time the pot lives. */
  speed: z.number().min(0.1).max(1000).default(1),
})

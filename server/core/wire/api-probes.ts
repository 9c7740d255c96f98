import { z } from 'zod'
import { atMs, who } from './api-fields.ts'

const checkPoint = z.strictObject({ rawC: z.number(), trueC: z.number() })
const from = { fromMs: atMs.optional(), note: z.string().max(500).optional(), who }

/** A correction as it is entered. It holds for readings from `fromMs` (now, when left out) on. */
export const newCorrection = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('offset'),
    offsetC: z.number().min(-20).max(20),
    check: checkPoint.optional(),
    ...from,
  }),
  z
    .strictObject({ kind: z.literal('two-point'), low: checkPoint, high: checkPoint, ...from })
    .refine((c) => c.high.rawC - c.low.rawC >= 10, 'two checks at least 10 °C apart, the lower one first'),
  z.strictObject({
    kind: z.literal('line'),
    refC: z.number(),
    atRefC: z.number().min(-20).max(20),
    slope: z.number().min(-0.5).max(0.5),
    uAtRefC: z.number().nonnegative(),
    uSlope: z.number().nonnegative(),
    correlation: z.number().min(-1).max(1),
    residualC: z.number().nonnegative(),
    points: z.array(checkPoint).min(3).max(100),
    ...from,
  }),
])
export type NewCorrection = z.output<typeof newCorrection>

export const correctionAnswer = z.object({
  id: z.number(),
  probe: z.string(),
  fromMs: z.number(),
  madeMs: z.number(),
  who: z.string().nullable(),
  body: z.looseObject({ kind: z.string() }),
})

/** A spot check with a second thermometer, typed by hand. */
export const typedReading = z.strictObject({
  tempC: z.number().min(-20).max(110),
  atMs: atMs.optional(),
  who,
})

export const probeAnswer = z.object({
  name: z.string(),
  title: z.string(),
  tempC: z.number().nullable().describe('°C corrected, the last that was believed'),
  atMs: z.number().nullable(),
  ageMs: z.number().nullable(),
  verdict: z.string().nullable(),
  kind: z.string().nullable(),
  place: z.string().nullable(),
  state: z.string().nullable(),
  sentence: z.string().nullable(),
  setting: z.enum(['file', 'page']).nullable(),
  accepted: z.boolean(),
  potId: z.string().nullable(),
  rateCPerMin: z.number().nullable(),
  noiseC: z.number().nullable(),
  periodMs: z.number().nullable(),
  battery01: z.number().nullable(),
  lagS: z.number().nullable(),
  /** `offsetC`: what an offset adds, °C; `null` for the other kinds. */
  correction: z
    .object({
      text: z.string(),
      kind: z.enum(['offset', 'two-point', 'line']),
      offsetC: z.number().nullable(),
      fromMs: z.number(),
    })
    .nullable(),
})
export type ProbeAnswer = z.infer<typeof probeAnswer>

import { z } from 'zod'
import { CLAIM_KINDS } from '../bath/told-claim.ts'
import { BURNER_KINDS } from '../bath/vessel.ts'
import { who } from './api-fields.ts'
import type { BurnerPage, EveningAnswer, MixingAnswer, WhatIfAnswer } from './burner.ts'
import { vesselSchema } from './vessel-file.ts'

/** What is asked and answered about pots on their burners. */

const tempC = z.number().gte(-5).lte(105)
const roomC = z.number().gte(-20).lte(50)

export const whatIfAsk = z.strictObject({
  litres: z.number().positive().max(1000).optional(),
  lid: z.enum(['on', 'off']).default('on'),
  dial: z.number().gte(0).max(1000),
  surroundingsC: roomC.optional(),
  /** The room's temperature when left out. */
  startC: tempC.optional(),
  /** What the stage of a plan asks for. */
  stage: z
    .strictObject({
      windowC: z.tuple([tempC, tempC]).optional(),
      ceilingC: tempC.optional(),
      coolToC: tempC.optional(),
    })
    .default({}),
  hours: z.number().gte(0.5).lte(24).default(4),
})
export type WhatIfAsk = z.output<typeof whatIfAsk>

export const mixingAsk = z
  .strictObject({
    /** The bath now; as it is measured when left out. */
    bathC: tempC.optional(),
    goods: z
      .strictObject({
        dryKg: z.number().gte(0).max(500),
        /** The water that they carry; left out: twice their dry weight. */
        waterKg: z.number().gte(0).max(1000).optional(),
        tempC,
      })
      .optional(),
    topUp: z.strictObject({ litres: z.number().positive().max(1000), tempC }).optional(),
  })
  .refine((ask) => ask.goods !== undefined || ask.topUp !== undefined, 'goods or topUp, or both')
export type MixingAsk = z.output<typeof mixingAsk>

export const byWhom = z.strictObject({ who })

const ranged = z.object({ value: z.number(), low90: z.number(), high90: z.number() })
const rangedS = z.object({ value: z.number(), early90: z.number(), late90: z.number().nullable() })

export const burnerAnswer = z.object({
  pot: z.object({
    id: z.string(),
    title: z.string(),
    vessel: vesselSchema,
    probe: z.string().nullable(),
  }),
  burnerKind: z.enum(BURNER_KINDS).nullable(),
  isGuess: z.boolean(),
  roomC: z.number(),
  boilingC: z.number(),
  capacityKJPerC: ranged,
  storedKJ: ranged,
  elementLagS: ranged,
  dials: z.array(
    z.object({
      dial: z.number(),
      watts: ranged,
      steadyLidOnC: ranged.nullable(),
      steadyLidOffC: ranged.nullable(),
      isKnown: z.boolean(),
    }),
  ),
  losses: z.array(z.object({ tempC: z.number(), lidOnW: ranged, lidOffW: ranged })),
  traces: z.array(
    z.object({
      batchId: z.number().nullable(),
      title: z.string().nullable(),
      fromMs: z.number(),
      toMs: z.number(),
      litres: z.number(),
      misfitC: z.number().nullable(),
      lid: z.enum(['noted', 'judged-on', 'judged-off']).nullable(),
      why: z.enum(['learned', 'no-dial', 'too-short', 'unlike']),
    }),
  ),
  record: z.array(
    z.object({
      kind: z.enum(CLAIM_KINDS),
      batchId: z.number().nullable(),
      stageId: z.string(),
      madeMs: z.number(),
      told: z.number(),
      low90: z.number(),
      high90: z.number(),
      came: z.number(),
      isGuess: z.boolean(),
      source: z.enum(['live', 'replayed']),
    }),
  ),
  burnerChangesMs: z.array(z.number()),
  energy: z.array(
    z.object({
      batchId: z.number(),
      title: z.string(),
      kWh: z.number(),
      fromNameplate: z.boolean(),
      cost: z.number().nullable(),
    }),
  ),
}) satisfies z.ZodType<BurnerPage>

export const whatIfAnswer = z.object({
  isGuess: z.boolean(),
  path: z.array(z.tuple([z.number(), z.number(), z.number(), z.number()])),
  reachesS: rangedS.nullable(),
  leavesS: z.number().nullable(),
  passesCeilingS: z.number().nullable(),
  coolEnoughS: rangedS.nullable(),
  peakC: z.number(),
  steadyC: ranged.nullable(),
  boilingC: z.number(),
  holdDial: ranged.nullable(),
}) satisfies z.ZodType<WhatIfAnswer>

export const mixingAnswer = z.object({
  bathC: z.number(),
  mixedC: z.number(),
}) satisfies z.ZodType<MixingAnswer>

export const eveningAnswer = z.object({
  potId: z.string(),
  tempC: z.number().nullable(),
  running: z
    .object({
      startedMs: z.number(),
      step: z.enum(['full', 'middle', 'low', 'off', 'lid-off']),
      set: z.object({ dial: z.number(), lid: z.enum(['on', 'off']) }),
      noted: z.object({ dial: z.number().nullable(), lid: z.enum(['on', 'off']).nullable() }),
      isSet: z.boolean(),
      leftMin: z.number(),
      isEnough: z.boolean(),
      stepsDone: z.number(),
      stepsInAll: z.number(),
    })
    .nullable(),
  lastDoneMs: z.number().nullable(),
  cannot: z.enum(['no-vessel', 'no-probe', 'no-reading', 'stage-running', 'too-warm']).nullable(),
}) satisfies z.ZodType<EveningAnswer>

export const forecastAnswer = z.object({
  atMs: z.number(),
  /** [Unix ms, °C, low, high]; empty where nothing can be said. */
  path: z.array(z.tuple([z.number(), z.number(), z.number(), z.number()])),
})

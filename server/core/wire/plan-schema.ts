import { z } from 'zod'
import { ALARM_NAMES } from '../plan/alarm-names.ts'
import { visibleLine } from './visible-line.ts'

const line = visibleLine(200)
const text = z.string().max(5000)
const number = z.number()

/** Exactly one of the two amounts: both, or neither, is a slip of the pen. */
const additive = z.strictObject({
  name: line,
  note: text.optional(),
  percentWof: number.optional().describe('per cent of the dry weight of the goods'),
  gPerL: number.optional().describe('grams a litre of bath'),
})

const base = {
  id: line.describe('unique in its plan: letters, digits, - and _'),
  title: line.optional().describe('left out: the id'),
  additives: z.array(additive).max(100).optional(),
  liquorRatio: number.optional().describe('litres of water a kilogram of dry goods'),
  phRange: z.tuple([number, number]).optional(),
  note: text.optional(),
  cautions: z.array(text).max(50).optional(),
}
const windowC = z.tuple([number, number]).describe('°C, bottom and top, both count as in')
const ceilingC = number.optional().describe('°C')

/** The fields of each kind of stage; whatever else stands in a file is refused. */
export const STAGE_FIELDS = {
  hold: z.strictObject({
    ...base,
    kind: z.literal('hold'),
    windowC,
    ceilingC,
    holdMin: number,
    maxHeatingCPerMin: number.optional(),
    maxCoolingCPerMin: number.optional(),
    turnEveryMin: number.optional(),
    outByMin: number.optional(),
    goods: z.boolean().optional().describe('false: an extraction; left out: true'),
  }),
  cool: z.strictObject({
    ...base,
    kind: z.literal('cool'),
    coolToC: number,
    maxCoolingCPerMin: number.optional(),
    outByMin: number.optional(),
  }),
  soak: z.strictObject({ ...base, kind: z.literal('soak'), minutes: number, ceilingC }),
  rest: z.strictObject({ ...base, kind: z.literal('rest'), minutes: number }),
  'keep-warm': z.strictObject({
    ...base,
    kind: z.literal('keep-warm'),
    windowC,
    ceilingC,
    minutes: number.optional(),
    maxHeatingCPerMin: number.optional(),
  }),
} as const

export const ADDITIVE_FIELDS = Object.keys(additive.shape)

const alarmSetting = z.strictObject({
  onDelayS: number.exactOptional(),
  offDelayS: number.exactOptional(),
  deadbandC: number.exactOptional(),
  inService: z.boolean().exactOptional(),
})

/** A plan file as a person writes it: what may be left out is optional here and filled in by `decodePlan`. */
export const planFileSchema = z.strictObject({
  title: line.optional(),
  fibre: line.optional(),
  stages: z
    .array(
      z.discriminatedUnion('kind', [
        STAGE_FIELDS.hold,
        STAGE_FIELDS.cool,
        STAGE_FIELDS.soak,
        STAGE_FIELDS.rest,
        STAGE_FIELDS['keep-warm'],
      ]),
    )
    .max(200),
  alarms: z.partialRecord(z.enum(ALARM_NAMES), alarmSetting).optional(),
})
export type PlanFile = z.infer<typeof planFileSchema>
export type StageFile = PlanFile['stages'][number]
export type AdditiveFile = z.infer<typeof additive>

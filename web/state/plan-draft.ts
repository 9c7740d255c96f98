import type { Additive, Plan, Stage } from '#core/plan/plan'
import { differenceF, fahrenheit } from '#core/measure/units'
import type { DeviceSettings } from './device-settings.ts'

type Unit = DeviceSettings['unit']

/** Numbers of a stage that a person types, by name. `C`: a temperature, `rate`: a difference a minute. */
export const STAGE_NUMBERS = {
  windowLow: 'C',
  windowHigh: 'C',
  ceiling: 'C',
  coolTo: 'C',
  maxHeating: 'rate',
  maxCooling: 'rate',
  holdMin: 'plain',
  minutes: 'plain',
  turnEvery: 'plain',
  outBy: 'plain',
  liquorRatio: 'plain',
} as const
export type NumberName = keyof typeof STAGE_NUMBERS

/** What a kind of stage asks for, and which of it may stay empty, in the order of the form. */
export const FIELDS_OF: Readonly<
  Record<Stage['kind'], readonly (readonly [name: NumberName, must: 'must' | 'may'])[]>
> = {
  hold: [
    ['windowLow', 'must'],
    ['windowHigh', 'must'],
    ['ceiling', 'may'],
    ['holdMin', 'must'],
    ['maxHeating', 'may'],
    ['maxCooling', 'may'],
    ['turnEvery', 'may'],
    ['outBy', 'may'],
    ['liquorRatio', 'may'],
  ],
  cool: [
    ['coolTo', 'must'],
    ['maxCooling', 'may'],
    ['outBy', 'may'],
  ],
  soak: [
    ['minutes', 'must'],
    ['ceiling', 'may'],
    ['liquorRatio', 'may'],
  ],
  rest: [['minutes', 'must']],
  'keep-warm': [
    ['windowLow', 'must'],
    ['windowHigh', 'must'],
    ['ceiling', 'may'],
    ['minutes', 'may'],
    ['maxHeating', 'may'],
    ['liquorRatio', 'may'],
  ],
}

export interface AdditiveDraft {
  readonly name: string
  readonly amount: string
  readonly per: 'percentWof' | 'gPerL'
  readonly note?: string
}

/** A stage while it is written: texts in the person's unit, as typed. */
export interface StageDraft {
  /** Stays the same while the stage moves about in the list. */
  readonly key: number
  /** The stage's id in the plan as it was read; `null` for a new stage. */
  readonly id: string | null
  readonly kind: Stage['kind']
  readonly title: string
  readonly note: string
  readonly numbers: Readonly<Partial<Record<NumberName, string>>>
  readonly extraction: boolean
  readonly additives: readonly AdditiveDraft[]
  /** What the form doesn't show is kept as it was. */
  readonly kept: Pick<Stage, 'phRange' | 'cautions'>
}

export interface PlanDraft {
  readonly title: string
  readonly fibre: string
  readonly stages: readonly StageDraft[]
  readonly alarms: Plan['alarms'] | null
}

export const newStage = (key: number): StageDraft => ({
  key,
  id: null,
  kind: 'hold',
  title: '',
  note: '',
  numbers: {},
  extraction: false,
  additives: [],
  kept: {},
})

export const emptyPlanDraft = (): PlanDraft => ({ title: '', fibre: '', stages: [newStage(1)], alarms: null })

/** A plan → what stands in the form, in the person's unit. */
export function draftOf(plan: Plan, unit: Unit): PlanDraft {
  return {
    title: plan.title,
    fibre: plan.fibre ?? '',
    stages: plan.stages.map((stage, i) => stageDraft(stage, i + 1, unit)),
    alarms: plan.alarms ?? null,
  }
}

function stageDraft(stage: Stage, key: number, unit: Unit): StageDraft {
  const { phRange, cautions } = stage
  return {
    key,
    id: stage.id,
    kind: stage.kind,
    title: stage.title,
    note: stage.note ?? '',
    numbers: shownNumbers(stage, unit),
    extraction: stage.kind === 'hold' && !stage.goods,
    additives: stage.additives.map(additiveDraft),
    kept: { ...(phRange === undefined ? {} : { phRange }), ...(cautions === undefined ? {} : { cautions }) },
  }
}

const additiveDraft = (additive: Additive): AdditiveDraft => ({
  name: additive.name,
  amount: String('percentWof' in additive ? additive.percentWof : additive.gPerL),
  per: 'percentWof' in additive ? 'percentWof' : 'gPerL',
  ...(additive.note === undefined ? {} : { note: additive.note }),
})

function shownNumbers(stage: Stage, unit: Unit): StageDraft['numbers'] {
  const all: Readonly<Record<NumberName, number | undefined>> = {
    windowLow: 'windowC' in stage ? stage.windowC[0] : undefined,
    windowHigh: 'windowC' in stage ? stage.windowC[1] : undefined,
    ceiling: 'ceilingC' in stage ? stage.ceilingC : undefined,
    coolTo: stage.kind === 'cool' ? stage.coolToC : undefined,
    maxHeating: 'maxHeatingCPerMin' in stage ? stage.maxHeatingCPerMin : undefined,
    maxCooling: 'maxCoolingCPerMin' in stage ? stage.maxCoolingCPerMin : undefined,
    holdMin: stage.kind === 'hold' ? stage.holdMin : undefined,
    minutes: 'minutes' in stage ? stage.minutes : undefined,
    turnEvery: stage.kind === 'hold' ? stage.turnEveryMin : undefined,
    outBy: 'outByMin' in stage ? stage.outByMin : undefined,
    liquorRatio: stage.liquorRatio,
  }
  return Object.fromEntries(
    FIELDS_OF[stage.kind].flatMap(([name]) => {
      const value = all[name]
      return value === undefined ? [] : [[name, shownNumber(value, STAGE_NUMBERS[name], unit)]]
    }),
  )
}

/** Two decimals are finer than any probe; trailing zeros are left out. */
function shownNumber(value: number, sort: (typeof STAGE_NUMBERS)[NumberName], unit: Unit): string {
  const shown =
    unit === 'C' || sort === 'plain' ? value : sort === 'C' ? fahrenheit(value) : differenceF(value)
  return String(Math.round(shown * 100) / 100)
}

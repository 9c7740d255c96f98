import type { Additive, Plan, Stage } from '#core/plan/plan'
import { type AlarmDraft, alarmDrafts } from './alarm-draft.ts'
import { type Unit, shownNumber } from './typed-number.ts'

/**
 * Numbers of a stage that a person types, by name. `C`: a temperature, `rate`: a difference a minute, `length`: may be
 * 0 too, `plain`: over 0.
 */
export const STAGE_NUMBERS = {
  windowLow: 'C',
  windowHigh: 'C',
  ceiling: 'C',
  coolTo: 'C',
  maxHeating: 'rate',
  maxCooling: 'rate',
  holdMin: 'length',
  minutes: 'length',
  turnEvery: 'plain',
  outBy: 'plain',
  liquorRatio: 'plain',
  phLow: 'ph',
  phHigh: 'ph',
} as const
export type NumberName = keyof typeof STAGE_NUMBERS

/** What any stage may have, after what its kind asks for. */
const OF_ANY: readonly (readonly [name: NumberName, must: 'may'])[] = [
  ['liquorRatio', 'may'],
  ['phLow', 'may'],
  ['phHigh', 'may'],
]

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
    ...OF_ANY,
  ],
  cool: [['coolTo', 'must'], ['maxCooling', 'may'], ['outBy', 'may'], ...OF_ANY],
  soak: [['minutes', 'must'], ['ceiling', 'may'], ...OF_ANY],
  rest: [['minutes', 'must'], ...OF_ANY],
  'keep-warm': [
    ['windowLow', 'must'],
    ['windowHigh', 'must'],
    ['ceiling', 'may'],
    ['minutes', 'may'],
    ['maxHeating', 'may'],
    ...OF_ANY,
  ],
}

export interface AdditiveDraft {
  readonly name: string
  readonly amount: string
  readonly per: 'percentWof' | 'gPerL'
  readonly note: string
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
  /** The dyer's own, one a line. */
  readonly cautions: string
  /** The stage as it was read; `null` for a new one. What is not typed over stays as exact as it was. */
  readonly read: Stage | null
}

export interface PlanDraft {
  readonly title: string
  readonly fibre: string
  readonly stages: readonly StageDraft[]
  readonly alarms: readonly AlarmDraft[]
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
  cautions: '',
  read: null,
})

export const emptyPlanDraft = (): PlanDraft => ({ title: '', fibre: '', stages: [newStage(1)], alarms: [] })

/** A plan → what stands in the form, in the person's unit. */
export function draftOf(plan: Plan, unit: Unit): PlanDraft {
  return {
    title: plan.title,
    fibre: plan.fibre ?? '',
    stages: plan.stages.map((stage, i) => stageDraft(stage, i + 1, unit)),
    alarms: alarmDrafts(plan.alarms ?? {}, unit),
  }
}

function stageDraft(stage: Stage, key: number, unit: Unit): StageDraft {
  const numbers = Object.entries(numbersOf(stage)) as [NumberName, number][]
  return {
    key,
    id: stage.id,
    kind: stage.kind,
    title: stage.title,
    note: stage.note ?? '',
    numbers: Object.fromEntries(
      numbers.map(([name, value]) => [name, shownNumber(value, STAGE_NUMBERS[name], unit)]),
    ),
    extraction: stage.kind === 'hold' && !stage.goods,
    additives: stage.additives.map(additiveDraft),
    cautions: cautionLines(stage),
    read: stage,
  }
}

export const cautionLines = (stage: Stage): string => (stage.cautions ?? []).join('\n')

const additiveDraft = (additive: Additive): AdditiveDraft => ({
  name: additive.name,
  amount: String('percentWof' in additive ? additive.percentWof : additive.gPerL),
  per: 'percentWof' in additive ? 'percentWof' : 'gPerL',
  note: additive.note ?? '',
})

/** The numbers that a stage has, by name. */
export function numbersOf(stage: Stage): Partial<Record<NumberName, number>> {
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
    phLow: stage.phRange?.[0],
    phHigh: stage.phRange?.[1],
  }
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined))
}

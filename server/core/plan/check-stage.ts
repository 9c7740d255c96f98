import type { Additive, Stage } from './plan.ts'
import { PLAN_RANGE_C } from './temp-range.ts'

/**
 * What makes a stage impossible, one sentence a fault (stage, field, what was found, what is allowed); none for
 * a stage that can be run. Values that are odd but possible are the business of `warnPlan`.
 */
export function checkStage(stage: Stage): readonly string[] {
  const at = `stage "${stage.id}"`
  const faults = [
    ...checkId(stage.id),
    ...stageTemps(stage).flatMap(([field, tempC]) => checkTemp(`${at}: ${field}`, tempC)),
    ...checkOrder(at, stage),
    ...positives(stage).flatMap(([field, value]) => checkPositive(`${at}: ${field}`, value)),
    ...lengths(stage).flatMap(([field, value]) => checkNotNegative(`${at}: ${field}`, value)),
    ...checkPh(at, stage.phRange),
    ...stage.additives.flatMap((additive) => checkAdditive(at, additive)),
  ]
  return faults
}

function checkId(id: string): readonly string[] {
  if (/^[A-Za-z0-9_-]{1,64}$/.test(id)) return []
  return [`stage "${id}": its id may have 1 to 64 letters, digits, "-" and "_", without spaces`]
}

type Field = readonly [field: string, value: number]

function stageTemps(stage: Stage): readonly Field[] {
  const window: Field[] =
    'windowC' in stage
      ? [
          ['windowC (bottom)', stage.windowC[0]],
          ['windowC (top)', stage.windowC[1]],
        ]
      : []
  const ceiling: Field[] =
    'ceilingC' in stage && stage.ceilingC !== undefined ? [['ceilingC', stage.ceilingC]] : []
  const coolTo: Field[] = stage.kind === 'cool' ? [['coolToC', stage.coolToC]] : []
  return [...window, ...ceiling, ...coolTo]
}

function checkTemp(what: string, tempC: number): readonly string[] {
  if (tempC >= PLAN_RANGE_C.low && tempC <= PLAN_RANGE_C.high) return []
  return [`${what} is ${tempC}; allowed is a number from ${PLAN_RANGE_C.low} to ${PLAN_RANGE_C.high} °C`]
}

function checkOrder(at: string, stage: Stage): readonly string[] {
  if (!('windowC' in stage)) return []
  const [lowC, highC] = stage.windowC
  const upsideDown =
    lowC > highC
      ? [`${at}: windowC is upside down, [${lowC}, ${highC}]; the bottom stands first, [${highC}, ${lowC}]`]
      : []
  const top = Math.max(lowC, highC)
  const low =
    stage.ceilingC !== undefined && stage.ceilingC < top
      ? [
          `${at}: ceilingC ${stage.ceilingC} lies under the top of the window, ${top}; allowed is ${top} or more`,
        ]
      : []
  return [...upsideDown, ...low]
}

const given = (fields: readonly (readonly [string, number | undefined])[]): readonly Field[] =>
  fields.filter((field): field is Field => field[1] !== undefined)

function positives(stage: Stage): readonly Field[] {
  const rates = {
    liquorRatio: stage.liquorRatio,
    maxHeatingCPerMin: 'maxHeatingCPerMin' in stage ? stage.maxHeatingCPerMin : undefined,
    maxCoolingCPerMin: 'maxCoolingCPerMin' in stage ? stage.maxCoolingCPerMin : undefined,
    turnEveryMin: 'turnEveryMin' in stage ? stage.turnEveryMin : undefined,
    outByMin: 'outByMin' in stage ? stage.outByMin : undefined,
  }
  return given(Object.entries(rates))
}

function lengths(stage: Stage): readonly Field[] {
  const times = {
    holdMin: stage.kind === 'hold' ? stage.holdMin : undefined,
    minutes: 'minutes' in stage ? stage.minutes : undefined,
  }
  return given(Object.entries(times))
}

function checkPositive(what: string, value: number): readonly string[] {
  return Number.isFinite(value) && value > 0 ? [] : [`${what} is ${value}; allowed is a number over 0`]
}

function checkNotNegative(what: string, value: number): readonly string[] {
  return Number.isFinite(value) && value >= 0
    ? []
    : [`${what} is ${value}; allowed is a number that is 0 or more`]
}

function checkPh(at: string, range: readonly [number, number] | undefined): readonly string[] {
  if (range === undefined) return []
  const [low, high] = range
  if (low >= 0 && high <= 14 && low <= high) return []
  return [`${at}: phRange is [${low}, ${high}]; allowed are two numbers from 0 to 14, the lower first`]
}

function checkAdditive(at: string, additive: Additive): readonly string[] {
  const [field, value] =
    'percentWof' in additive
      ? (['percentWof', additive.percentWof] as const)
      : (['gPerL', additive.gPerL] as const)
  return checkNotNegative(`${at}: additive "${additive.name}": ${field}`, value)
}

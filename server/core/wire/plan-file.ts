import type { Additive, Plan, Stage } from '../plan/plan.ts'
import { type PlanPlace, USUAL_PLACE, warnPlan } from '../plan/warn-plan.ts'
import type { Person } from '../words/person.ts'
import { planWarningText } from '../words/plan-warning-text.ts'
import { checkPlan } from '../plan/check-plan.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'
import {
  ADDITIVE_FIELDS,
  type AdditiveFile,
  STAGE_FIELDS,
  type StageFile,
  planFileSchema,
} from './plan-schema.ts'

export type DecodedPlan =
  | { readonly ok: true; readonly plan: Plan; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly why: string }

/** Who reads the warnings where nobody says otherwise. */
const READER: Person = { unit: 'C', zone: 'UTC', language: 'en' }

/** At most this many faults stand in one answer: the rest is usually their echo. */
const MOST_FAULTS = 5

/**
 * A plan file's JSON → a plan that can be run, or one line that says what stands in the way. What a dyer may
 * leave out is filled in: the plan's title, a stage's title (its id), `goods` (true), additives (none).
 * `warnings` tell `reader` what is unusual for the goods or at this `place`; they never stand in the way.
 */
export function decodePlan(
  json: unknown,
  place: PlanPlace = USUAL_PLACE,
  reader: Person = READER,
): DecodedPlan {
  const parsed = planFileSchema.safeParse(json)
  if (!parsed.success)
    return refuse(
      parsed.error.issues.map((issue) => explainIssue(issue, json, (path) => fieldsAt(json, path))),
    )
  const slips = parsed.data.stages.flatMap(oneAmountEach)
  if (slips.length > 0) return refuse(slips)
  const { title, stages, ...rest } = parsed.data
  const plan = { ...rest, title: title ?? 'Plan without a title', stages: stages.map(fillStage) } as Plan
  const faults = checkPlan(plan)
  if (faults.length > 0) return refuse(faults)
  const warnings = warnPlan(plan, place).map((warning) => planWarningText(warning, warning.stageId, reader))
  return { ok: true, plan, warnings }
}

function refuse(faults: readonly string[]): DecodedPlan {
  const more = faults.length - MOST_FAULTS
  const shown = [...faults.slice(0, MOST_FAULTS), ...(more > 0 ? [`and ${more} more`] : [])]
  return { ok: false, why: shown.join('; ') }
}

function oneAmountEach(stage: StageFile): readonly string[] {
  return (stage.additives ?? [])
    .filter((additive) => (additive.percentWof === undefined) === (additive.gPerL === undefined))
    .map(
      (additive) =>
        `stage "${stage.id}": additive "${additive.name}" has ${additive.gPerL === undefined ? 'no amount' : 'two amounts'}; allowed is one, percentWof or gPerL`,
    )
}

function fillStage(stage: StageFile): Stage {
  const filled = {
    ...stage,
    title: stage.title ?? stage.id,
    additives: (stage.additives ?? []) as readonly (AdditiveFile & Additive)[],
  }
  return (filled.kind === 'hold' ? { ...filled, goods: filled.goods ?? true } : filled) as Stage
}

/** The fields that a plan file knows at a path, for the nearest name. */
function fieldsAt(json: unknown, path: readonly PropertyKey[]): readonly string[] {
  if (path[0] === 'alarms') return knownFields(planFileSchema, path)
  if (path[0] !== 'stages') return Object.keys(planFileSchema.shape)
  if (path.includes('additives')) return ADDITIVE_FIELDS
  const kind = (json as { stages: { kind: keyof typeof STAGE_FIELDS }[] }).stages[Number(path[1])]!.kind
  return Object.keys(STAGE_FIELDS[kind].shape)
}

/** The inverse of `decodePlan`: plain JSON data, nothing added. */
export const encodePlan = (plan: Plan): unknown => JSON.parse(JSON.stringify(plan))

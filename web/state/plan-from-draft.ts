import { readNumber } from '#core/measure/read-number'
import { celsius, differenceC } from '#core/measure/units'
import type { Additive, Plan, Stage } from '#core/plan/plan'
import type { DeviceSettings } from './device-settings.ts'
import { FIELDS_OF, type NumberName, type PlanDraft, STAGE_NUMBERS, type StageDraft } from './plan-draft.ts'

/** What is wrong with one field; the page has the words. */
export type DraftProblem =
  | 'needs-number'
  | 'needs-text'
  | 'must-be-positive'
  | 'window-upside-down'
  | 'ceiling-under-window'

/** Problems by field: `title`, `2.windowLow` (the key of the stage), `2.additive.0`. */
export type DraftProblems = Readonly<Record<string, DraftProblem>>

export type PlanFromDraft =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: DraftProblems }

type Unit = DeviceSettings['unit']
type Numbers = Partial<Record<NumberName, number>>

/** What was typed → a plan in °C, or what stands in the way, field by field. */
export function planFromDraft(draft: PlanDraft, unit: Unit): PlanFromDraft {
  const problems: Record<string, DraftProblem> = {}
  if (draft.title.trim() === '') problems['title'] = 'needs-text'
  const ids = stageIds(draft.stages)
  const stages = draft.stages.map((stage, i) => stageFrom(stage, ids[i]!, unit, problems))
  if (Object.keys(problems).length > 0) return { ok: false, problems }
  const fibre = draft.fibre.trim()
  const plan: Plan = {
    title: draft.title.trim(),
    ...(fibre === '' ? {} : { fibre }),
    stages,
    ...(draft.alarms === null || draft.alarms === undefined ? {} : { alarms: draft.alarms }),
  }
  return { ok: true, plan }
}

function stageFrom(draft: StageDraft, id: string, unit: Unit, problems: Record<string, DraftProblem>): Stage {
  const numbers = readNumbers(draft, unit, problems)
  if (draft.title.trim() === '') problems[`${draft.key}.title`] = 'needs-text'
  checkOrder(draft, numbers, problems)
  const additives = draft.additives.map((_, i) => additiveFrom(draft, i, problems))
  const note = draft.note.trim()
  const base = { id, title: draft.title.trim(), additives, ...draft.kept, ...(note === '' ? {} : { note }) }
  // Where a number is missing a problem stands, and the stage is thrown away with the others.
  const stage: unknown = { ...base, ...kindPart(draft, numbers) }
  return stage as Stage
}

function readNumbers(draft: StageDraft, unit: Unit, problems: Record<string, DraftProblem>): Numbers {
  const found: Numbers = {}
  for (const [name, must] of FIELDS_OF[draft.kind]) {
    const typed = (draft.numbers[name] ?? '').trim()
    const value = readNumber(typed.replace('−', '-'))
    if (typed === '' && must === 'may') continue
    if (value === null) problems[`${draft.key}.${name}`] = 'needs-number'
    else if (STAGE_NUMBERS[name] !== 'C' && value <= 0) problems[`${draft.key}.${name}`] = 'must-be-positive'
    else found[name] = toC(value, name, unit)
  }
  return found
}

/** Rounded to a ten-thousandth, so that 176 °F is 80 °C and not 79.99999. */
function toC(value: number, name: NumberName, unit: Unit): number {
  const sort = STAGE_NUMBERS[name]
  if (unit === 'C' || sort === 'plain') return value
  return Math.round((sort === 'C' ? celsius(value) : differenceC(value)) * 1e4) / 1e4
}

function checkOrder(draft: StageDraft, numbers: Numbers, problems: Record<string, DraftProblem>): void {
  const { windowLow, windowHigh, ceiling } = numbers
  if (windowLow === undefined || windowHigh === undefined) return
  if (windowLow > windowHigh) problems[`${draft.key}.windowHigh`] = 'window-upside-down'
  else if (ceiling !== undefined && ceiling < windowHigh)
    problems[`${draft.key}.ceiling`] = 'ceiling-under-window'
}

function additiveFrom(draft: StageDraft, i: number, problems: Record<string, DraftProblem>): Additive {
  const { name, amount, per, note } = draft.additives[i]!
  const value = readNumber(amount)
  const at = `${draft.key}.additive.${i}`
  if (name.trim() === '') problems[at] = 'needs-text'
  else if (value === null) problems[at] = 'needs-number'
  else if (value <= 0) problems[at] = 'must-be-positive'
  const base = { name: name.trim(), ...(note === undefined ? {} : { note }) }
  return per === 'percentWof' ? { ...base, percentWof: value ?? 0 } : { ...base, gPerL: value ?? 0 }
}

function kindPart({ kind, extraction }: StageDraft, n: Numbers): object {
  const more = optional({
    ceilingC: n.ceiling,
    maxHeatingCPerMin: n.maxHeating,
    maxCoolingCPerMin: n.maxCooling,
    turnEveryMin: n.turnEvery,
    outByMin: n.outBy,
    liquorRatio: n.liquorRatio,
    minutes: n.minutes,
  })
  const windowC = [n.windowLow, n.windowHigh]
  switch (kind) {
    case 'hold':
      return { kind, ...more, windowC, holdMin: n.holdMin, goods: !extraction }
    case 'keep-warm':
      return { kind, ...more, windowC }
    case 'cool':
      return { kind, ...more, coolToC: n.coolTo }
    case 'soak':
    case 'rest':
      return { kind, ...more }
    default:
      return kind satisfies never
  }
}

const optional = (pairs: Readonly<Record<string, number | undefined>>): object =>
  Object.fromEntries(Object.entries(pairs).filter(([, value]) => value !== undefined))

/** A stage keeps its id; a new one gets one made from its title, and no two are alike. */
export function stageIds(stages: readonly Pick<StageDraft, 'id' | 'title' | 'kind'>[]): readonly string[] {
  const taken = new Set(stages.map((s) => s.id).filter((id) => id !== null))
  return stages.map(({ id, title, kind }) => {
    if (id !== null) return id
    const word = slug(title) || kind
    const fresh = [word, ...Array.from({ length: 99 }, (_, i) => `${word}-${i + 2}`)].find(
      (w) => !taken.has(w),
    )!
    taken.add(fresh)
    return fresh
  })
}

const slug = (title: string): string =>
  title
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40)

import { readNumber } from '#core/measure/read-number'
import type { Additive, Plan, Stage } from '#core/plan/plan'
import { alarmsFromDrafts } from './alarm-draft.ts'
import {
  FIELDS_OF,
  type NumberName,
  type PlanDraft,
  STAGE_NUMBERS,
  type StageDraft,
  cautionLines,
  numbersOf,
} from './plan-draft.ts'
import { type NumberSort, type Unit, typedNumber } from './typed-number.ts'

/** What is wrong with one field; the page has the words. */
export type DraftProblem =
  | 'needs-number'
  | 'needs-text'
  | 'must-be-positive'
  | 'must-not-be-negative'
  | 'not-a-ph'
  | 'ph-upside-down'
  | 'window-upside-down'
  | 'ceiling-under-window'

/** Problems by field: `title`, `2.windowLow` (the key of the stage), `2.additive.0`, `alarms.above-window.onDelayS`. */
export type DraftProblems = Readonly<Record<string, DraftProblem>>

export type PlanFromDraft =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: DraftProblems }

type Numbers = Partial<Record<NumberName, number>>

/** What was typed → a plan in °C, or what stands in the way, field by field. */
export function planFromDraft(draft: PlanDraft, unit: Unit): PlanFromDraft {
  const problems: Record<string, DraftProblem> = {}
  if (draft.title.trim() === '') problems['title'] = 'needs-text'
  const ids = stageIds(draft.stages)
  const stages = draft.stages.map((stage, i) => stageFrom(stage, ids[i]!, unit, problems))
  const { alarms, noNumbers } = alarmsFromDrafts(draft.alarms, unit)
  for (const field of noNumbers) problems[`alarms.${field}`] = 'needs-number'
  if (Object.keys(problems).length > 0) return { ok: false, problems }
  const fibre = draft.fibre.trim()
  const plan: Plan = {
    title: draft.title.trim(),
    ...(fibre === '' ? {} : { fibre }),
    stages,
    ...(draft.alarms.length === 0 ? {} : { alarms }),
  }
  return { ok: true, plan }
}

function stageFrom(draft: StageDraft, id: string, unit: Unit, problems: Record<string, DraftProblem>): Stage {
  const numbers = readNumbers(draft, unit, problems)
  if (draft.title.trim() === '') problems[`${draft.key}.title`] = 'needs-text'
  checkOrder(draft, numbers, problems)
  const additives = draft.additives.map((_, i) => additiveFrom(draft, i, problems))
  const note = draft.note.trim()
  const cautions = cautionsFrom(draft)
  const { phLow, phHigh } = numbers
  const base = {
    id,
    title: draft.title.trim(),
    additives,
    ...(phLow === undefined ? {} : { phRange: [phLow, phHigh] }),
    ...(cautions.length === 0 ? {} : { cautions }),
    ...(note === '' ? {} : { note: draft.read?.note?.trim() === note ? draft.read.note : note }),
  }
  // Where a number is missing a problem stands, and the stage is thrown away with the others.
  const stage: unknown = { ...base, ...kindPart(draft, numbers) }
  return stage as Stage
}

function cautionsFrom({ read, cautions }: StageDraft): readonly string[] {
  if (read !== null && cautions === cautionLines(read)) return read.cautions ?? []
  return cautions
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
}

function readNumbers(draft: StageDraft, unit: Unit, problems: Record<string, DraftProblem>): Numbers {
  const found: Numbers = {}
  const before = draft.read === null ? {} : numbersOf(draft.read)
  for (const [name, must] of FIELDS_OF[draft.kind]) {
    const typed = (draft.numbers[name] ?? '').trim()
    if (typed === '' && must === 'may') continue
    const sort = STAGE_NUMBERS[name]
    const value = typedNumber(typed, sort, unit, before[name])
    const problem = value === null ? 'needs-number' : outside(value, sort)
    if (problem !== null) problems[`${draft.key}.${name}`] = problem
    else found[name] = value!
  }
  return found
}

/** What a number of this sort may not be; temperatures are judged against one another. */
function outside(value: number, sort: NumberSort): DraftProblem | null {
  switch (sort) {
    case 'C':
      return null
    case 'rate':
    case 'plain':
      return value > 0 ? null : 'must-be-positive'
    case 'length':
      return value >= 0 ? null : 'must-not-be-negative'
    case 'ph':
      return value >= 0 && value <= 14 ? null : 'not-a-ph'
    default:
      return sort satisfies never
  }
}

function checkOrder(draft: StageDraft, numbers: Numbers, problems: Record<string, DraftProblem>): void {
  const { windowLow, windowHigh, ceiling, phLow, phHigh } = numbers
  const typedPh = [draft.numbers.phLow, draft.numbers.phHigh].map((text) => (text ?? '').trim() !== '')
  if (typedPh[0] !== typedPh[1]) problems[`${draft.key}.${typedPh[0] ? 'phHigh' : 'phLow'}`] = 'needs-number'
  if (phLow !== undefined && phHigh !== undefined && phLow > phHigh)
    problems[`${draft.key}.phHigh`] = 'ph-upside-down'
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
  else if (value < 0) problems[at] = 'must-not-be-negative'
  const base = { name: name.trim(), ...(note.trim() === '' ? {} : { note: note.trim() }) }
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

import type { Stage } from '../plan/plan.ts'
import { STARTING_POINTS, type StartingPoint } from '../plan/starting-points.ts'
import { COMMON_PRACTICE } from '../plan/starting/preparation.ts'
import { wordsOf } from './words-of.ts'

/** The starting points with their texts in a language: whoever copies one gets a plan in their own words. */
export function startingPointsIn(language: string): readonly StartingPoint[] {
  const texts = wordsOf(language).starting
  return texts === null ? STARTING_POINTS : STARTING_POINTS.map((point) => worded(point, texts))
}

type Texts = Readonly<Record<string, string>>

const worded = (point: StartingPoint, texts: Texts): StartingPoint => ({
  ...point,
  title: said(point.title, texts),
  plan: {
    ...point.plan,
    title: said(point.plan.title, texts),
    fibre: said(point.fibre, texts),
    stages: point.plan.stages.map((stage) => stageIn(stage, texts)),
  },
})

const stageIn = (stage: Stage, texts: Texts): Stage => ({
  ...stage,
  title: said(stage.title, texts),
  additives: stage.additives.map((additive) => ({ ...additive, name: said(additive.name, texts) })),
  ...(stage.note === undefined ? {} : { note: noteIn(stage.note, texts) }),
})

/** Every note says first that it is common practice, then perhaps why. */
function noteIn(note: string, texts: Texts): string {
  const why = note.slice(`${COMMON_PRACTICE}. `.length)
  const practice = said(COMMON_PRACTICE, texts)
  return why === '' ? practice : `${practice}. ${said(why, texts)}`
}

/** Throws RangeError for a text that has no translation: every one of them must have. */
function said(text: string, texts: Texts): string {
  const found = texts[text]
  if (found === undefined) throw new RangeError(`expected a translation of "${text}"`)
  return found
}

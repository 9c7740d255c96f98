import type { Stage } from '../plan/plan.ts'
import { STARTING_POINTS, type StartingPoint } from '../plan/starting-points.ts'
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

/** Sentence by sentence: the same ones stand in many notes. */
const noteIn = (note: string, texts: Texts): string =>
  note
    .split(/(?<=\.) /)
    .map((sentence) =>
      sentence.endsWith('.') ? `${said(sentence.slice(0, -1), texts)}.` : said(sentence, texts),
    )
    .join(' ')

/** A text without a translation stays as it is: a test names those. */
const said = (text: string, texts: Texts): string => texts[text] ?? text

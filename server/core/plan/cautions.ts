import type { Additive, Stage } from './plan.ts'

/**
 * The usual cautions, each once in a plan. General trade sense, no source; `codes-first` always stands last and defers
 * to local codes, the makers' instructions and licensed trades.
 */
export const CAUTION_NAMES = [
  'scald',
  'burner-off',
  'never-alone',
  'gas',
  'electric',
  'poison-metals',
  'copper',
  'iron',
  'mordant-dust',
  'alkali',
  'fine-powder',
  'reducer',
  'acid',
  'codes-first',
] as const
export type CautionName = (typeof CAUTION_NAMES)[number]

export type CautionTexts = Readonly<Record<CautionName, string>>

/** The cautions of a stage in the order of harm, the plan's own before the last line; none for a cold rest. */
export const cautionsOf = (stage: Stage, texts: CautionTexts): readonly string[] =>
  cautionsOfPlan([stage], texts)

/** The cautions of a whole plan, each once. */
export function cautionsOfPlan(stages: readonly Stage[], texts: CautionTexts): readonly string[] {
  const found = new Set(stages.flatMap(namesOf))
  const usual = CAUTION_NAMES.filter((name) => found.has(name)).map((name) => texts[name])
  const own = stages.flatMap((stage) => stage.cautions ?? [])
  const all = [...new Set([...usual, ...own])]
  return all.length === 0 ? [] : [...all, texts['codes-first']]
}

const namesOf = (stage: Stage): readonly CautionName[] => [
  ...heatCautions(stage),
  ...SUBSTANCES.filter(({ words }) => stage.additives.some((a) => words.test(plainName(a)))).map(
    (s) => s.name,
  ),
]

/** From here on water burns skin within half a minute, °C (common practice, rounded down). */
const SCALD_C = 50

function heatCautions(stage: Stage): readonly CautionName[] {
  if (stage.kind === 'cool') return ['scald', 'burner-off']
  const isHot = 'windowC' in stage && stage.windowC[1] >= SCALD_C
  return isHot ? ['scald', 'never-alone', 'gas', 'electric'] : []
}

/** Lower case, without accents: `Galläpfel` → `gallapfel`. */
const plainName = (additive: Additive): string =>
  additive.name.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase()

/**
 * By the beginning of a word in the additive's plain name, in English and German. German writes its compounds as one
 * word, so a German name may also stand at the end of one: `\w*alaun`.
 */
const SUBSTANCES: readonly { readonly name: CautionName; readonly words: RegExp }[] = [
  { name: 'poison-metals', words: /\b(chrom|tin\b|stannous|zinn|\w*dichromat)/ },
  { name: 'copper', words: /\b(copper|kupfer)/ },
  { name: 'iron', words: /\b(iron|ferrous|eisen)/ },
  { name: 'mordant-dust', words: /\b(alum|\w*alaun|tonerde|\w*acetat|titan)/ },
  {
    name: 'alkali',
    words: /\b(\w*soda\b|lime\b|kalk\b|\w*hydroxid|lye|\w*lauge\b|ammonia|pottasche|caustic|atz)/,
  },
  {
    name: 'fine-powder',
    words:
      /\b(tannin|tannic|\w*gerbstoff|gallnut|gallapf|indigo|extract|\w*extrakt|oxalic|oxalsaure|rhubarb leaf|rhabarberbl)/,
  },
  { name: 'reducer', words: /\b(\w*dithionit|\w*hydrosulfit|thiourea|thioharnstoff)/ },
  { name: 'acid', words: /\b(vinegar|essig|acetic|citric|[zc]itronensaure)/ },
]

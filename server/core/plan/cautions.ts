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

export const ENGLISH_CAUTIONS: CautionTexts = {
  scald: 'Hot liquor scalds within seconds: open the lid away from you and never lift a hot pot.',
  'burner-off':
    'Turn the burner off by hand and look that it is off; a bath cools without heat or not at all.',
  'never-alone':
    'Never leave a lit burner alone. No alarm makes that safe, and this tool is no safety device.',
  gas: 'Burn gas only where the burner may be used, with fresh air and a carbon monoxide alarm.',
  electric:
    'Keep plugs above the rim, cables with a drip loop, and every socket behind a residual-current device.',
  'poison-metals':
    'Chrome and tin are poisonous and may not go down a drain: better not used in a studio at all.',
  copper: 'Copper salts harm water life: gloves, no dust, and the spent bath goes where the local rule says.',
  iron: 'Iron salts are dangerous to children when swallowed and stain: gloves, and keep them locked away.',
  'mordant-dust': 'Mordant dust irritates: mask and gloves, add the powder to the water, no fan.',
  alkali: 'Strong alkali burns skin and eyes: gloves and glasses, add it slowly to much water.',
  'fine-powder': 'Fine powders harm the lungs: mask and gloves, add the powder to the water, no fan.',
  reducer: 'The reducer gives off sulphur gases and may catch fire when damp: outdoors, dry, away from acid.',
  acid: 'Acid stings eyes and frees gas from chalk and soda: add it slowly.',
  'codes-first':
    'Local codes, the maker’s instructions and a licensed electrician or gas fitter come before anything said here.',
}

/** The cautions of a stage in the order of harm, the plan's own before the last line; none for a cold rest. */
export const cautionsOf = (stage: Stage, texts: CautionTexts = ENGLISH_CAUTIONS): readonly string[] =>
  cautionsOfPlan([stage], texts)

/** The cautions of a whole plan, each once. */
export function cautionsOfPlan(
  stages: readonly Stage[],
  texts: CautionTexts = ENGLISH_CAUTIONS,
): readonly string[] {
  const found = new Set(stages.flatMap(namesOf))
  const usual = CAUTION_NAMES.filter((name) => found.has(name)).map((name) => texts[name])
  const own = stages.flatMap((stage) => stage.cautions ?? [])
  const all = [...new Set([...usual, ...own])]
  return all.length === 0 ? [] : [...all, texts['codes-first']]
}

const namesOf = (stage: Stage): readonly CautionName[] => [
  ...heatCautions(stage),
  ...SUBSTANCES.filter(({ words }) => stage.additives.some((a) => isOneOf(a, words))).map((s) => s.name),
]

/** From here on water burns skin within half a minute, °C (common practice, rounded down). */
const SCALD_C = 50

function heatCautions(stage: Stage): readonly CautionName[] {
  if (stage.kind === 'cool') return ['scald', 'burner-off']
  const isHot = 'windowC' in stage && stage.windowC[1] >= SCALD_C
  return isHot ? ['scald', 'never-alone', 'gas', 'electric'] : []
}

const isOneOf = (additive: Additive, words: readonly string[]): boolean => {
  const name = additive.name.toLowerCase()
  return words.some((word) => new RegExp(`\\b${word}`).test(name))
}

/** By the beginning of a word in the additive's name. */
const SUBSTANCES: readonly { readonly name: CautionName; readonly words: readonly string[] }[] = [
  { name: 'poison-metals', words: ['chrom', 'tin\\b', 'stannous', 'potassium dichromate'] },
  { name: 'copper', words: ['copper'] },
  { name: 'iron', words: ['iron', 'ferrous'] },
  { name: 'mordant-dust', words: ['alum', 'aluminium', 'acetate', 'titanium'] },
  {
    name: 'alkali',
    words: ['soda', 'lime\\b', 'slaked lime', 'calcium hydroxide', 'lye', 'ammonia', 'caustic'],
  },
  {
    name: 'fine-powder',
    words: ['tannin', 'tannic', 'gallnut', 'indigo', 'extract', 'oxalic', 'rhubarb leaf'],
  },
  { name: 'reducer', words: ['dithionite', 'hydrosulfite', 'thiourea'] },
  { name: 'acid', words: ['vinegar', 'acetic', 'citric'] },
]

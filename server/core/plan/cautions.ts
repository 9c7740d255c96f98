import type { Additive, Stage } from './plan.ts'

/** The cautions of a whole plan, each once, the deferral to codes and licensed trades last. */
export function cautionsOfPlan(stages: readonly Stage[]): readonly string[] {
  const all = [...new Set(stages.flatMap(cautionsOf))].filter((line) => line !== FIRST_OF_ALL)
  return all.length === 0 ? [] : [...all, FIRST_OF_ALL]
}

/**
 * The usual cautions for a stage, in the order of harm. General trade sense, no source; local codes, the makers'
 * instructions and licensed trades come first, and the last line says so.
 */
export function cautionsOf(stage: Stage): readonly string[] {
  const found = [
    ...heatCautions(stage),
    ...SUBSTANCES.filter(({ names }) => stage.additives.some((a) => isOneOf(a, names))).map((s) => s.caution),
    ...(stage.cautions ?? []),
  ]
  return found.length === 0 ? [] : [...new Set(found), FIRST_OF_ALL]
}

const FIRST_OF_ALL =
  'Local codes, the maker’s instructions and a licensed electrician or gas fitter come before anything said here.'

/** From here on water burns skin within half a minute, °C (common practice, rounded down). */
const SCALD_C = 50

function heatCautions(stage: Stage): readonly string[] {
  const topC = 'windowC' in stage ? stage.windowC[1] : stage.kind === 'cool' ? 100 : 0
  if (topC < SCALD_C) return []
  const hot = 'Hot liquor scalds within seconds: open the lid away from you and never lift a hot pot.'
  if (stage.kind === 'cool')
    return [
      hot,
      'Turn the burner off by hand and look that it is off; a bath cools without heat or not at all.',
    ]
  return [
    hot,
    'Never leave a lit burner alone. No alarm makes that safe, and this tool is no safety device.',
    'Burn gas only where the burner may be used, with fresh air and a carbon monoxide alarm.',
    'Keep plugs above the rim, cables with a drip loop, and every socket behind a residual-current device.',
  ]
}

const isOneOf = (additive: Additive, names: readonly string[]): boolean => {
  const name = additive.name.toLowerCase()
  return names.some((known) => new RegExp(`\\b${known}`).test(name))
}

/** By the beginning of a word in the additive's name. */
const SUBSTANCES: readonly { readonly names: readonly string[]; readonly caution: string }[] = [
  {
    names: ['chrom', 'tin\\b', 'stannous', 'potassium dichromate'],
    caution: 'Chrome and tin are poisonous and may not go down a drain: better not used in a studio at all.',
  },
  {
    names: ['copper'],
    caution:
      'Copper salts harm water life: gloves, no dust, and the spent bath goes where the local rule says.',
  },
  {
    names: ['iron', 'ferrous'],
    caution:
      'Iron salts are dangerous to children when swallowed and stain: gloves, and keep them locked away.',
  },
  {
    names: ['alum', 'aluminium', 'acetate', 'titanium'],
    caution: 'Mordant dust irritates: mask and gloves, add the powder to the water, no fan.',
  },
  {
    names: ['soda', 'lime\\b', 'calcium hydroxide', 'lye', 'ammonia', 'caustic'],
    caution: 'Strong alkali burns skin and eyes: gloves and glasses, add it slowly to much water.',
  },
  {
    names: ['tannin', 'tannic', 'gallnut', 'indigo', 'extract', 'oxalic', 'rhubarb leaf'],
    caution: 'Fine powders harm the lungs: mask and gloves, add the powder to the water, no fan.',
  },
  {
    names: ['dithionite', 'hydrosulfite', 'thiourea'],
    caution:
      'The reducer gives off sulphur gases and may catch fire when damp: outdoors, dry, away from acid.',
  },
  {
    names: ['vinegar', 'acetic', 'citric'],
    caution: 'Acid stings eyes and frees gas from chalk and soda: add it slowly.',
  },
]

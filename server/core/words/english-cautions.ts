import type { CautionTexts } from '../plan/cautions.ts'

/** English. */
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

import type { Plan, Stage } from '../plan/plan.ts'

/**
 * What fixes the dye, by the names dyers use in English and German; everything else that isn't a help counts as a dye.
 * A German name may stand at the end of a compound: `Kalialaun`, `Waschsoda`.
 */
const MORDANT =
  /\b(alum|\w*alaun|tonerde|iron|ferrous|eisen|tannin|gerbstoff|gallnut|gall[aä]pf|titan|copper|kupfer)/i
const HELP =
  /\b(soap|\w*soda|chalk|tartar|vinegar|acid|lime|fructose|bran|salt)\b|(seife|kreide|weinstein|essig|säure|kalk|fruktose|kleie|salz)$/i

export const isMordant = (name: string): boolean => MORDANT.test(name)

/** Does something go into this stage's bath that colours? */
export const isDyeStage = (stage: Stage): boolean => stage.additives.some((a) => isDye(a.name))

/** What an additive is there for, by its name. */
export const roleOf = (name: string): 'mordant' | 'help' | 'dye' =>
  isMordant(name) ? 'mordant' : HELP.test(name) ? 'help' : 'dye'

const isDye = (name: string): boolean => roleOf(name) === 'dye'

/** The additives of a plan as a customer wants to know them: mordants and dyes, by name, without amounts. */
export function additivesByRole(plan: Plan): {
  readonly mordants: readonly string[]
  readonly dyes: readonly string[]
} {
  const names = [...new Set(plan.stages.flatMap((stage) => stage.additives.map((a) => a.name)))]
  return { mordants: names.filter(isMordant), dyes: names.filter(isDye) }
}

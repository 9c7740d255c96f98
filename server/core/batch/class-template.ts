import type { Plan } from '../plan/plan.ts'

/** What a class dyes: one plan for all pots, or one for some of them. */
export interface ClassTemplate {
  readonly title: string
  readonly plan: Plan
  readonly dryWeightG: number
  /** By pot: a plan or weight of its own, and who dyes in it (first names, may be left out and deleted). */
  readonly pots?: Readonly<Record<string, ClassPot>>
}

export interface ClassPot {
  readonly plan?: Plan
  readonly dryWeightG?: number
  readonly pupils?: readonly string[]
}

export interface ClassBatch {
  readonly title: string
  readonly potId: string
  readonly plan: Plan
  readonly dryWeightG: number
  readonly pupils: readonly string[]
  /** No probe hangs in the pot: its readings are typed by hand, each with its time. */
  readonly byHand: boolean
}

/** A batch a pot from one template, in the order of the pots. Six pots are six lines of one answer. */
export function classBatches(
  template: ClassTemplate,
  pots: readonly { readonly id: string; readonly title: string; readonly probe: string | null }[],
): readonly ClassBatch[] {
  return pots.map((pot) => {
    const own = template.pots?.[pot.id]
    return {
      title: `${template.title} · ${pot.title}`,
      potId: pot.id,
      plan: own?.plan ?? template.plan,
      dryWeightG: own?.dryWeightG ?? template.dryWeightG,
      pupils: own?.pupils ?? [],
      byHand: pot.probe === null,
    }
  })
}

import type { FibreKind } from '../plan/fibre.ts'
import type { PlanWarning } from '../plan/plan-warning.ts'

/** Numbers of a warning as the person reads them, each with its unit; whole ones without a decimal. */
export interface WarningNumbers {
  readonly temp: (tempC: number) => string
  readonly difference: (differenceC: number) => string
  readonly number: (value: number) => string
}

type Sentences = {
  readonly [K in PlanWarning['kind']]: (
    warning: Extract<PlanWarning, { readonly kind: K }>,
    n: WarningNumbers,
  ) => string
}

/** What is unusual in a plan, in one language: what was found, what is usual, and why it matters at the pot. */
export interface PlanWarningCatalogue {
  readonly sentences: Sentences
  readonly fibres: Readonly<Record<FibreKind, string>>
  readonly at: (stage: string, sentence: string) => string
}

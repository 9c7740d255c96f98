/** What things are called where a sentence speaks of them. */
export interface Names {
  /** Pot id → the pot's title. */
  readonly pots: Readonly<Record<string, string>>
  /** Stage id → the stage's title; what is missing is left out. */
  readonly stages?: Readonly<Record<string, string>>
  /** Pot id → what is in it: `madder, wool`. */
  readonly contents?: Readonly<Record<string, string>>
}

/** `Heron (madder, wool)`; an id that has no title stands for itself. */
export function potName(potId: string, names: Names): string {
  const title = names.pots[potId] ?? potId
  const content = names.contents?.[potId]
  return content === undefined || content === '' ? title : `${title} (${content})`
}

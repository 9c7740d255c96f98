/**
 * The word of `known` that `word` was probably meant to be, or `null` when none is near: at most a third of
 * the letters differ (two at least).
 */
export function nearest(word: string, known: readonly string[]): string | null {
  const ranked = known
    .map((candidate) => ({ candidate, edits: editsBetween(word.toLowerCase(), candidate.toLowerCase()) }))
    .sort((a, b) => a.edits - b.edits)
  const best = ranked[0]
  return best !== undefined && best.edits <= Math.max(2, word.length / 3) ? best.candidate : null
}

/** `"baudd" is not known; did you mean "baud"?`, or the whole list when nothing is near. */
export function unknownWord(word: string, known: readonly string[]): string {
  const guess = nearest(word, known)
  const hint = guess === null ? `allowed are ${known.join(', ')}` : `did you mean "${guess}"?`
  return `"${word.slice(0, 60)}" is not known; ${hint}`
}

/** Letters to insert, delete, replace or swap with their neighbour to make `a` into `b`. */
function editsBetween(a: string, b: string): number {
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) next.push(editCell({ a, b, i, j, before, row, next }))
    before = row
    row = next
  }
  return row[b.length]!
}

interface Cell {
  readonly a: string
  readonly b: string
  readonly i: number
  readonly j: number
  readonly before: readonly number[]
  readonly row: readonly number[]
  readonly next: readonly number[]
}

function editCell({ a, b, i, j, before, row, next }: Cell): number {
  const replaced = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)
  const swapped = a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? before[j - 2]! + 1 : Infinity
  return Math.min(row[j]! + 1, next[j - 1]! + 1, replaced, swapped)
}

/** Edits (insert, drop, change, swap two neighbours) that turn one word into the other. */
function edits(a: string, b: string): number {
  const rows = [Array.from({ length: b.length + 1 }, (_, j) => j)]
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const changed = rows[i - 1]![j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const swap = swapped ? rows[i - 2]![j - 2]! + 1 : Infinity
      row.push(Math.min(changed, swap, rows[i - 1]![j]! + 1, row[j - 1]! + 1))
    }
    rows.push(row)
  }
  return rows[a.length]![b.length]!
}

const plain = (text: string) => text.toLowerCase().replaceAll(/[-_\s]/g, '')

const distance = (word: string, name: string): number =>
  Math.min(edits(word, plain(name)), edits(word, plain(name.slice(name.lastIndexOf('.') + 1))))

/**
 * The known name that a mistyped word most likely meant; `undefined` without any known name. Case, `-` and `_`
 * cost nothing, so `hold_min` finds `holdMin`. A name further in (`vessel.litres`) is also met by its last part. Ties go
 * to the name that stands first.
 */
export function nearestName(word: string, known: readonly string[]): string | undefined {
  const ranked = known.map((name) => ({ name, far: distance(plain(word), name) }))
  return ranked.sort((a, b) => a.far - b.far)[0]?.name
}

/**
 * What a person typed → a full-text query: each word quoted (nothing in it is syntax) and open at its end, all of
 * them needed. `null` when there is no word in it.
 */
export function searchWords(text: string): string | null {
  const words = text.match(/[\p{L}\p{N}\p{M}]+/gu) ?? []
  return words.length === 0
    ? null
    : words
        .slice(0, MOST_WORDS)
        .map((word) => `"${word}"*`)
        .join(' ')
}

const MOST_WORDS = 12

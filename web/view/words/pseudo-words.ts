const MARKS: Readonly<Record<string, string>> = {
  a: 'á',
  c: 'ç',
  d: 'ð',
  e: 'ê',
  g: 'ĝ',
  h: 'ĥ',
  i: 'î',
  k: 'ķ',
  l: 'ļ',
  n: 'ñ',
  o: 'ö',
  r: 'ŕ',
  s: 'š',
  t: 'ŧ',
  u: 'ü',
  w: 'ŵ',
  y: 'ý',
  z: 'ž',
  A: 'Á',
  B: 'ß',
  C: 'Ç',
  D: 'Ð',
  E: 'Ê',
  H: 'Ĥ',
  I: 'Î',
  L: 'Ļ',
  N: 'Ñ',
  O: 'Ö',
  P: 'Þ',
  R: 'Ŕ',
  S: 'Š',
  T: 'Ŧ',
  W: 'Ŵ',
  Y: 'Ý',
}

/** One text with marked letters, between brackets and a third longer, as many languages are. */
function pseudoText(text: string): string {
  if (text === '') return ''
  const marked = text.replaceAll(/[A-Za-z]/g, (letter) => MARKS[letter] ?? letter)
  return `[${marked}${'·'.repeat(Math.ceil(text.length / 3))}]`
}

/** A whole catalogue in the pseudo language: texts, and what functions make of their arguments. */
export function pseudoWords<T>(words: T): T {
  if (typeof words === 'string') return pseudoText(words) as T
  if (typeof words === 'function')
    return ((...given: readonly unknown[]) => pseudoWords(words(...given) as unknown)) as T
  if (typeof words !== 'object' || words === null) return words
  return Object.fromEntries(Object.entries(words).map(([key, word]) => [key, pseudoWords(word)])) as T
}

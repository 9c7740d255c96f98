/**
 * A line as a probe sent it → a pattern to begin with: the first number with a decimal point, else the first
 * number, becomes the temperature. `T1=21.4 C` → `T1={tempC} C`. Without a number: the field alone.
 */
export function lineGuess(sample: string | null): string {
  const line = (sample ?? '').trim()
  const found = /-?\d+[.,]\d+/.exec(line) ?? /(?<![\w.])-?\d+(?![\w.])/.exec(line)
  if (found === null) return '{tempC}'
  const before = line.slice(0, found.index)
  const after = line.slice(found.index + found[0].length)
  const field = /^\s*°?F\b/.test(after) ? '{tempF}' : '{tempC}'
  return `${before}${field}${after}`
}

/**
 * A number as instruments write it: NR1, NR2 or NR3 of IEEE 488.2 §8.7, with a decimal comma taken for a point.
 * `null` for anything else: no half of a text ever becomes a number.
 */
export function readNumber(text: string): number | null {
  const trimmed = text.trim()
  if (!/^[+-]?(\d{1,20}([.,]\d{0,20})?|[.,]\d{1,20})([eE][+-]?\d{1,3})?$/.test(trimmed)) return null
  return Number(trimmed.replace(',', '.'))
}

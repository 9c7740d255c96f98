import type { Difference, DifferenceName } from '#core/batch/rank-differences'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

export const differenceName = (difference: Difference, w: Catalogue): string =>
  w.record.differenceOf(w.record.differences[difference.what], difference.of)

/** A scale of 0.1 g tells hundredths of a per cent only of what is little: chalk, iron, tartar. %. */
const FEW_PERCENT = 10

/** A value of a difference in this person's units. Temperatures come in °C, times in minutes, weights in grams. */
export function differenceValue(
  what: DifferenceName,
  value: string | number | null,
  w: Catalogue,
  f: Format,
): string {
  if (value === null) return w.record.notSaid
  if (typeof value === 'string') return value
  switch (what) {
    case 'mean':
    case 'peak':
    case 'checked-over-ceiling':
      return f.temp(value)
    case 'probe-correction':
      return f.drop(value)
    case 'heat-up-rate':
      return f.pace(value)
    case 'stayed-in':
    case 'above-window':
    case 'below-window':
    case 'in-window':
    case 'heat-up-time':
      return value === 0 ? f.minutes(0) : f.span(value * 60_000)
    case 'mordant-age':
      return w.record.days(f.amount(value))
    case 'liquor-ratio':
      return w.record.ratio(f.amount(value))
    case 'amount':
      if (value === 0) return w.record.notUsed
      return w.record.percent(f.amount(value, value < FEW_PERCENT ? 2 : 1))
    case 'water-hardness':
      return w.record.mgL(f.amount(value))
    case 'dry-weight':
      return f.weight(value)
    default:
      return f.amount(value, 2)
  }
}

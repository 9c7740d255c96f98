const ISO =
  /^(\d{4})-(\d{2})-(\d{2})[Tt ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?(?:([Zz])|([+-])(\d{2}):?(\d{2})?)$/

/**
 * An ISO 8601 time with `Z` or an offset → Unix ms, UTC, rounded to the millisecond. `null` for anything else:
 * without a zone nobody knows when it was, and a 30 February is a slip.
 */
export function zonedTime(text: string): number | null {
  const match = ISO.exec(text)
  if (match === null) return null
  const [, year, month, day, hour, minute, second = '0', fraction = '0'] = match
  const offsetMin = match[8] === undefined ? offset(match[9]!, match[10]!, match[11]) : 0
  const parts = [year, month, day, hour, minute, second].map(Number)
  const [y, mo, d, h, mi, s] = parts as [number, number, number, number, number, number]
  const atMs = Date.UTC(y, mo - 1, d, h, mi, s)
  const back = new Date(atMs)
  const isReal = back.getUTCMonth() === mo - 1 && back.getUTCDate() === d && h < 24 && mi < 60 && s < 60
  if (!isReal || offsetMin === null) return null
  return atMs + Math.round(Number(`0.${fraction}`) * 1000) - offsetMin * 60_000
}

function offset(sign: string, hours: string, minutes = '00'): number | null {
  if (Number(hours) > 23 || Number(minutes) > 59) return null
  return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes))
}

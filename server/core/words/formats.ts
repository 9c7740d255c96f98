/**
 * Formats of the runtime, each made once: to make one costs some hundred times as much as to use it, and a page has
 * hundreds of numbers. The same question gives the same format always; a wrong zone throws RangeError, as the runtime does.
 */
const numbers = new Map<string, Intl.NumberFormat>()
const dates = new Map<string, Intl.DateTimeFormat>()

/** Numbers with at least and at most so many decimals. `language`: a BCP 47 tag. */
export function numberFormat(
  language: string,
  decimals: { readonly least: number; readonly most: number; readonly useGrouping: boolean },
): Intl.NumberFormat {
  const { least, most, useGrouping } = decimals
  return once(
    numbers,
    `${language} ${least} ${most} ${useGrouping}`,
    () =>
      new Intl.NumberFormat(language, {
        minimumFractionDigits: least,
        maximumFractionDigits: most,
        useGrouping,
      }),
  )
}

const SHAPES = {
  clock: { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' },
  day: { weekday: 'short', day: 'numeric', month: 'short' },
  date: { dateStyle: 'long' },
  weekday: { weekday: 'short' },
} as const satisfies Readonly<Record<string, Intl.DateTimeFormatOptions>>

/** Times on the wall clock of a zone (IANA): `14:32`, `Tue, 3 Mar`, `3 March 2026`, `Tue`. */
export const dateFormat = (
  language: string,
  timeZone: string,
  shape: keyof typeof SHAPES,
): Intl.DateTimeFormat =>
  once(
    dates,
    `${language} ${timeZone} ${shape}`,
    () => new Intl.DateTimeFormat(language, { ...SHAPES[shape], timeZone }),
  )

function once<T>(made: Map<string, T>, key: string, make: () => T): T {
  const known = made.get(key)
  if (known !== undefined) return known
  const fresh = make()
  made.set(key, fresh)
  return fresh
}

import { z } from 'zod'

/** How somebody reads: the fields of the studio's settings and of a phone that is called. */
export const unitField = z.enum(['C', 'F'])
export const zoneField = z.string().max(64).refine(isZone, 'an IANA time zone such as Europe/Dublin')
export const languageField = z
  .string()
  .max(35)
  .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, 'a language such as en')

function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }) instanceof Intl.DateTimeFormat
  } catch {
    return false
  }
}

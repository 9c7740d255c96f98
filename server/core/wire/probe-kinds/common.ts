import { z } from 'zod'

/** Names go into SenML names (RFC 8428 §4.5.1) and addresses of pages, so they are kept simple. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/
export const probeName = z
  .string()
  .regex(NAME, 'allowed are letters, digits and - . _, at most 64, the first no sign')

export const seconds = (low: number, high: number) => z.number().min(low).max(high)

/** What every probe may have. */
export const common = {
  name: probeName,
  /** How it is called on the page; the name when left out. */
  title: z.string().min(1).max(80).optional(),
  /** Time constant of the probe in stirred water, seconds; learned when left out. */
  lagS: seconds(0, 600).optional(),
  /** Silence is told after this long, seconds; learned from the probe's own rhythm when left out. */
  silentAfterS: seconds(1, 3600).optional(),
  enabled: z.boolean().optional(),
  /** The bridge that it hangs on; the one beside the server when left out. */
  bridge: probeName.optional(),
}

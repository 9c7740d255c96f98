import { z } from 'zod'

/** A time of day on a clock of 24 hours. */
export const clockOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time such as 06:30')

/** How cool a bath must be for hands that lift goods out of it, °C. */
export const liftTemp = z.number().gte(15).lte(80)

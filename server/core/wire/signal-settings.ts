import { z } from 'zod'

const tablePoint = z.strictObject({
  ohms: z.number().positive(),
  tempC: z.number().min(-60).max(200),
})

/** What an electrical signal is, so that a number of it becomes °C. Ohms, millivolts and milliamperes. */
export const signal = z.discriminatedUnion('kind', [
  /** Platinum, IEC 60751; `ohms0`: resistance at 0 °C, 100 or 1000 as a rule. `leadOhms` is taken off first. */
  z.strictObject({
    kind: z.literal('platinum'),
    ohms0: z.number().positive().default(100),
    leadOhms: z.number().min(0).default(0),
  }),
  /** Thermocouple, IEC 60584; the number is millivolts, `coldC` the temperature of its terminals. */
  z.strictObject({
    kind: z.literal('thermocouple'),
    type: z.enum(['K', 'T']),
    coldC: z.number().min(-20).max(100),
  }),
  /** Thermistor by two constants: ohms at 25 °C and Beta in kelvin. */
  z.strictObject({
    kind: z.literal('ntc-beta'),
    ohms25: z.number().positive(),
    betaK: z.number().positive(),
  }),
  /** Thermistor by the three Steinhart–Hart constants. */
  z.strictObject({ kind: z.literal('ntc-steinhart'), a: z.number(), b: z.number(), c: z.number() }),
  /** Thermistor by three lines of its maker's table. */
  z.strictObject({
    kind: z.literal('ntc-table'),
    points: z
      .tuple([tablePoint, tablePoint, tablePoint])
      .refine(
        (points) =>
          new Set(points.map((p) => p.ohms)).size === 3 && new Set(points.map((p) => p.tempC)).size === 3,
        'three lines with three different temperatures and resistances are wanted',
      ),
  }),
  /** 4–20 mA with its faults by NAMUR NE 43; °C at 4 and at 20 mA. */
  z.strictObject({ kind: z.literal('current-loop'), at4mAC: z.number(), at20mAC: z.number() }),
  /** 1/16 °C a count, two's complement, as a 12-bit one-wire chip gives it. */
  z.strictObject({ kind: z.literal('sixteenths') }),
])
export type SignalSettings = z.infer<typeof signal>

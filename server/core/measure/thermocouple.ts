export type ThermocoupleType = 'K' | 'T'

interface Reference {
  readonly above: readonly number[]
  readonly below: readonly number[]
  /** Type K's extra term a0·exp(a1·(t − a2)²) above 0 °C. */
  readonly bump: readonly [number, number, number] | null
}

/**
 * Reference functions of ITS-90 (NIST SRD 60 = IEC 60584-1), mV from °C, reference junction at 0 °C. Above 0 °C as
 * published; the coefficients below 0 °C are from memory and only matter for a cold terminal in frost.
 */
const REFERENCES: Readonly<Record<ThermocoupleType, Reference>> = {
  K: {
    above: [
      -0.17600413686e-1, 0.38921204975e-1, 0.1855877002e-4, -0.99457592874e-7, 0.31840945719e-9,
      -0.56072844889e-12, 0.56075059059e-15, -0.32020720003e-18, 0.97151147152e-22, -0.12104721275e-25,
    ],
    below: [
      0, 0.39450128025e-1, 0.23622373598e-4, -0.32858906784e-6, -0.49904828777e-8, -0.67509059173e-10,
      -0.57410327428e-12, -0.31088872894e-14, -0.10451609365e-16, -0.19889266878e-19, -0.16322697486e-22,
    ],
    bump: [0.1185976, -0.1183432e-3, 126.9686],
  },
  T: {
    above: [
      0, 0.38748106364e-1, 0.3329222788e-4, 0.20618243404e-6, -0.21882256846e-8, 0.10996880928e-10,
      -0.30815758772e-13, 0.4547913529e-16, -0.27512901673e-19,
    ],
    below: [
      0, 0.38748106364e-1, 0.44194434347e-4, 0.11844323105e-6, 0.20032973554e-7, 0.90138019559e-9,
      0.22651156593e-10, 0.36071154205e-12, 0.38493939883e-14, 0.28213521925e-16, 0.14251594779e-18,
      0.48768662286e-21, 0.1079553927e-23, 0.13945027062e-26, 0.79795153927e-30,
    ],
    bump: null,
  },
}

/** Where the reference functions are used and rise steadily, °C. */
const LOW_C = -100
const HIGH_C = 400

/** Voltage of a couple at `tempC` against a junction at 0 °C, mV. */
export function thermocoupleMv(type: ThermocoupleType, tempC: number): number {
  const { above, below, bump } = REFERENCES[type]
  const coefficients = tempC >= 0 ? above : below
  const sum = coefficients.reduceRight((acc, c) => acc * tempC + c, 0)
  if (tempC < 0 || bump === null) return sum
  return sum + bump[0] * Math.exp(bump[1] * (tempC - bump[2]) ** 2)
}

/**
 * °C of the hot end from the measured voltage and the temperature of the terminals: voltages are added, never
 * temperatures. NaN outside −100…400 °C.
 */
export function thermocoupleC(type: ThermocoupleType, millivolts: number, coldC: number): number {
  const wantedMv = millivolts + thermocoupleMv(type, coldC)
  if (!(wantedMv >= thermocoupleMv(type, LOW_C) && wantedMv <= thermocoupleMv(type, HIGH_C))) return NaN
  let low = LOW_C
  let high = HIGH_C
  // 40 halvings of 500 °C leave under a billionth of a degree.
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2
    if (thermocoupleMv(type, middle) < wantedMv) low = middle
    else high = middle
  }
  return (low + high) / 2
}

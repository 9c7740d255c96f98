/** Random numbers from a seed: the same seed, the same numbers. */
export interface Seeded {
  /** Uniform on 0…1. */
  next(): number
  between(low: number, high: number): number
  /** Normal, by Box and Muller. */
  normal(mean?: number, spread?: number): number
  pick<T>(from: readonly T[]): T
}

/** Lehmer's generator modulo 2³¹ − 1 (Park and Miller 1988). */
export function seeded(seed: number): Seeded {
  let state = (Math.abs(Math.floor(seed)) % 2_147_483_646) + 1
  const next = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
  for (let i = 0; i < 10; i++) next()
  const normal = (mean = 0, spread = 1) =>
    mean + spread * Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next())
  return {
    next,
    normal,
    between: (low, high) => low + (high - low) * next(),
    pick: (from) => from[Math.floor(next() * from.length)]!,
  }
}

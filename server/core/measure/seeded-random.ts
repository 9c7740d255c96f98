/**
 * Numbers in 0 ≤ x < 1 that look random and are always the same for one seed. Marsaglia's xorshift on 32 bits,
 * started away from zero; good enough for noise and for tests, for nothing secret.
 */
export function seededRandom(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) | 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}

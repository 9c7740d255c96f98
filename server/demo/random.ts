/** Uniform numbers on 0…1 from a seed (mulberry-style mixing of a 32-bit counter): the same seed, the same studio. */
export function seededRandom(seed: number): () => number {
  let counter = seed >>> 0
  return () => {
    counter = (counter + 0x9e3779b9) >>> 0
    let mixed = counter
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad)
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97)
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32
  }
}

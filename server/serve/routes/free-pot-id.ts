/** A short word for a pot, made from its title: `Heron, 20 L` → `heron-20-l`; with a number where it is taken. */
export function freePotId(title: string, taken: readonly string[]): string {
  const plain = title
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40)
  const word = plain === '' ? 'pot' : plain
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? word : `${word}-${n}`
    if (!taken.includes(id)) return id
  }
}

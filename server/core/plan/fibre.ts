/** The three kinds of goods that a bath treats differently: protein hair, protein filament, plant. */
export const FIBRE_KINDS = ['wool', 'silk', 'cellulose'] as const
export type FibreKind = (typeof FIBRE_KINDS)[number]

/** What dyers call their goods, by kind; in English, German, French and Spanish, lower case, without accents. */
const NAMES: Readonly<Record<FibreKind, string>> = {
  wool: `wool merino alpaca mohair cashmere angora llama yak camel fleece hair
    wolle schurwolle haar laine alpaga cachemire lana cachemira pelo`,
  silk: `silk tussah seide soie seda`,
  cellulose: `cellulose cotton linen flax hemp ramie nettle jute viscose rayon bamboo lyocell modal
    baumwolle leinen flachs hanf nessel viskose zellulose coton lin chanvre ortie algodon lino canamo`,
}

/** The kinds named in what the dyer wrote (`wool and silk` → both); none when nothing is recognised. */
export function fibreKinds(fibre: string | undefined): readonly FibreKind[] {
  const words = (fibre ?? '')
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^a-z]+/)
  return FIBRE_KINDS.filter((kind) => NAMES[kind].split(/\s+/).some((name) => words.includes(name)))
}

/**
 * What a kind of goods bears, as dyers commonly keep it (common practice; `docs/trade-sources.md`).
 * `ceilingC`: no bath hotter. `heatingCPerMin`, `coolingCPerMin`: no faster with the goods in, `null`: no usual
 * bound. `phRange`: comfortable in a hot bath; for cellulose with an alum mordant in it.
 */
export interface FibreLimits {
  readonly ceilingC: number
  readonly heatingCPerMin: number
  readonly coolingCPerMin: number | null
  readonly phRange: readonly [low: number, high: number]
}

export const FIBRE_LIMITS: Readonly<Record<FibreKind, FibreLimits>> = {
  silk: { ceilingC: 85, heatingCPerMin: 1.5, coolingCPerMin: null, phRange: [4, 10] },
  wool: { ceilingC: 90, heatingCPerMin: 1.5, coolingCPerMin: 1, phRange: [4, 8] },
  cellulose: { ceilingC: 93, heatingCPerMin: 2, coolingCPerMin: null, phRange: [6, 12] },
}

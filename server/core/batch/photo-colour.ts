import {
  type Lab,
  type LinearRgb,
  deltaE00,
  labFromLinear,
  linearFromBytes,
  linearFromLab,
} from './colour.ts'

/** Pixels of one patch of a photo, sRGB bytes. */
export type Patch = readonly (readonly [r: number, g: number, b: number])[]

/** A patch whose true colour is known: a grey card, or the reference swatch as measured. */
export interface KnownPatch {
  readonly seen: Patch
  readonly known: Lab
}

/** A usual photographer's grey card: 18 % reflectance, neutral: L* 49.5 by CIE's formula. */
export const GREY_CARD: Lab = { lightness: 49.496, a: 0, b: 0 }

export type PhotoColour =
  | {
      readonly ok: true
      readonly lab: Lab
      /** How far the known patches are from their known colours after the correction, ΔE00, the worst of them. */
      readonly leftOver: number
      /** ΔE00 between photos of one swatch in daylight with a card; common practice, no source: about this. */
      readonly doubt: number
    }
  | { readonly ok: false; readonly why: string }

/** Bytes at the ends of the scale have lost what they held: blown out, or lost in the dark. */
const CLIPPED = { low: 3, high: 252 } as const
/** More than this share of clipped pixels spoils a patch. Own reckoning. */
const MOST_CLIPPED = 0.02
const DOUBT_DELTA_E = 3

/**
 * The colour of goods in a photo that shows a patch of known colour beside them. The light's colour and strength
 * are taken out channel by channel in linear light (von Kries' assumption; a fit by least squares through zero when
 * there are several known patches). It can't mend shine, shadows or a mixed light.
 */
export function photoColour(goods: Patch, knownPatches: readonly KnownPatch[]): PhotoColour {
  if (knownPatches.length === 0)
    return { ok: false, why: 'a photo needs a grey card or the reference swatch in it' }
  const [fault] = [goods, ...knownPatches.map((patch) => patch.seen)].flatMap(
    (seen) => patchFault(seen) ?? [],
  )
  if (fault !== undefined) return { ok: false, why: fault }
  const pairs = knownPatches.map(({ seen, known }) => ({
    seen: patchMean(seen),
    known: linearFromLab(known),
  }))
  const gain = { r: gainOf(pairs, 'r'), g: gainOf(pairs, 'g'), b: gainOf(pairs, 'b') }
  if (!Object.values(gain).every(Number.isFinite))
    return { ok: false, why: 'the known patches show no red, no green or no blue at all; add a grey card' }
  const corrected = (light: LinearRgb) => labFromLinear(times(light, gain))
  const leftOver = Math.max(...knownPatches.map(({ known }, i) => deltaE00(corrected(pairs[i]!.seen), known)))
  return { ok: true, lab: corrected(patchMean(goods)), leftOver, doubt: DOUBT_DELTA_E + leftOver }
}

/** The mean of a patch in linear light: a mean of gamma-coded bytes would come out too dark. */
function patchMean(patch: Patch): LinearRgb {
  const sum = { r: 0, g: 0, b: 0 }
  for (const pixel of patch) {
    const light = linearFromBytes(pixel)
    sum.r += light.r
    sum.g += light.g
    sum.b += light.b
  }
  return { r: sum.r / patch.length, g: sum.g / patch.length, b: sum.b / patch.length }
}

function patchFault(patch: Patch): string | null {
  if (patch.length === 0) return 'a patch without pixels has no colour'
  const blown = patch.filter((pixel) => pixel.some((byte) => byte >= CLIPPED.high)).length
  if (blown > patch.length * MOST_CLIPPED)
    return 'a patch is blown out: take the photo again with less light or out of the sun'
  const lost = patch.filter((pixel) => pixel.every((byte) => byte <= CLIPPED.low)).length
  return lost > patch.length * MOST_CLIPPED
    ? 'a patch is too dark: take the photo again with more light'
    : null
}

type Pair = { readonly seen: LinearRgb; readonly known: LinearRgb }

/** Least squares through zero: Σ seen·known / Σ seen². No number where nothing of the channel was seen. */
function gainOf(pairs: readonly Pair[], channel: 'r' | 'g' | 'b'): number {
  const top = pairs.reduce((sum, { seen, known }) => sum + seen[channel] * known[channel], 0)
  const bottom = pairs.reduce((sum, { seen }) => sum + seen[channel] ** 2, 0)
  return top / bottom
}

const times = (light: LinearRgb, gain: LinearRgb): LinearRgb => ({
  r: light.r * gain.r,
  g: light.g * gain.g,
  b: light.b * gain.b,
})

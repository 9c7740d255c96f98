import {
  converter,
  differenceCiede2000,
  formatHex,
  modeLab65,
  modeLrgb,
  modeRgb,
  modeXyz65,
  useMode,
} from 'culori/fn'

/** CIELAB, D65 and 2° observer: what a meter shows and what photos on the web are measured in. */
export interface Lab {
  readonly lightness: number
  readonly a: number
  readonly b: number
}

/** Light of a screen's red, green and blue, linear (not gamma-coded), 0 to 1. */
export interface LinearRgb {
  readonly r: number
  readonly g: number
  readonly b: number
}

// The library knows thirty colour spaces; the page has to carry only those that are used.
for (const mode of [modeRgb, modeLrgb, modeXyz65, modeLab65]) useMode(mode)

const toLab = converter('lab65')
const toLinear = converter('lrgb')
const deltaE2000 = differenceCiede2000()

/** sRGB as bytes (0–255) → linear light. Throws RangeError outside. */
export function linearFromBytes(rgb: readonly [r: number, g: number, b: number]): LinearRgb {
  if (rgb.some((byte) => !(byte >= 0 && byte <= 255)))
    throw new RangeError(`a colour's bytes must be 0 to 255, found ${rgb.join(', ')}`)
  const { r, g, b } = toLinear({ mode: 'rgb', r: rgb[0] / 255, g: rgb[1] / 255, b: rgb[2] / 255 })
  return { r, g, b }
}

/** Linear light → CIELAB D65. */
export function labFromLinear(light: LinearRgb): Lab {
  const { l, a, b } = toLab({ mode: 'lrgb', ...light })
  return { lightness: l, a, b }
}

/** CIELAB D65 → linear light; may lie outside 0–1 for a colour that no screen shows. */
export function linearFromLab(lab: Lab): LinearRgb {
  const { r, g, b } = toLinear({ mode: 'lab65', l: lab.lightness, a: lab.a, b: lab.b })
  return { r, g, b }
}

/** The nearest `#rrggbb` that a screen shows: for swatches on a page or in print. */
export const hexOfLab = (lab: Lab): string =>
  formatHex({ mode: 'lab65', l: lab.lightness, a: lab.a, b: lab.b })

/** Colour difference by CIEDE2000 (CIE 142-2001, kL = kC = kH = 1). */
export const deltaE00 = (one: Lab, other: Lab): number =>
  deltaE2000(
    { mode: 'lab65', l: one.lightness, a: one.a, b: one.b },
    { mode: 'lab65', l: other.lightness, a: other.a, b: other.b },
  )

/** Colour difference ΔE*ab of 1976, the one that grey scales are defined by. */
export const deltaEab = (one: Lab, other: Lab): number =>
  Math.hypot(one.lightness - other.lightness, one.a - other.a, one.b - other.b)

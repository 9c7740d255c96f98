import { type Lab, deltaEab } from './colour.ts'
import { GREY_GRADES, type GreyGrade } from './grey-grades.ts'

/**
 * Score of a corrected difference ΔE_F by ISO 105-A05:1996, section 8: 5 is unchanged, 1 the lowest.
 */
export const scoreOfDeltaEF = (deltaEF: number): number =>
  Math.max(1, deltaEF <= 3.4 ? 5 - deltaEF / 1.7 : 5 - Math.log2(deltaEF / 0.85))

/**
 * Fastness to change in colour by instrument: ΔE_F of ISO 105-A05 between the specimen untreated and treated.
 * The hue term was seen in print, the rest of ΔE_F is from memory.
 */
export function changeDifference(before: Lab, after: Lab): number {
  const meanChroma = (chromaOf(before) + chromaOf(after)) / 2
  const chromaChange = chromaOf(after) - chromaOf(before)
  const shift = (chromaChange * meanChroma * Math.exp(-hueWeight(before, after))) / 100
  const chromaF = (chromaChange - shift) / (1 + ((20 * meanChroma) / 1000) ** 2)
  const hueF = (hueDifference(before, after) - shift) / (1 + ((10 * meanChroma) / 1000) ** 2)
  return Math.hypot(after.lightness - before.lightness, chromaF, hueF)
}

const chromaOf = (lab: Lab): number => Math.hypot(lab.a, lab.b)

/** ΔH*: what is left of ΔE*ab without lightness and chroma; positive when the hue angle grew. */
function hueDifference(before: Lab, after: Lab): number {
  const chromaChange = chromaOf(after) - chromaOf(before)
  const square = (after.a - before.a) ** 2 + (after.b - before.b) ** 2 - chromaChange ** 2
  const turn = before.a * after.b - before.b * after.a
  return Math.sign(turn) * Math.sqrt(Math.max(0, square))
}

/** Hue angle, degrees from 0. */
const hueOf = (lab: Lab): number => ((Math.atan2(lab.b, lab.a) * 180) / Math.PI + 360) % 360

/** ((mean hue − 280) / 30)², the shorter way round the circle. */
function hueWeight(before: Lab, after: Lab): number {
  const apart = Math.abs(hueOf(before) - hueOf(after))
  const mean = (hueOf(before) + hueOf(after)) / 2 + (apart > 180 ? 180 : 0)
  const off = Math.abs((mean % 360) - 280)
  return ((off > 180 ? 360 - off : off) / 30) ** 2
}

/**
 * Staining of an adjacent cloth by instrument (ISO 105-A04): ΔE_GS = ΔE*ab − 0.4 √(ΔE*ab² − ΔL*²). The score from
 * it, 6.1 − 1.45 ln ΔE_GS and 5 − 0.23 ΔE_GS for grades over 4, is from memory.
 */
export function stainingScore(clean: Lab, stained: Lab): number {
  const deltaE = deltaEab(clean, stained)
  const deltaL = stained.lightness - clean.lightness
  const deltaGS = deltaE - 0.4 * Math.sqrt(Math.max(0, deltaE ** 2 - deltaL ** 2))
  const steep = 6.1 - 1.45 * Math.log(deltaGS)
  const score = deltaGS === 0 || steep > 4 ? 5 - 0.23 * deltaGS : steep
  return Math.min(5, Math.max(1, score))
}

/** A score to the nearest half grade: 4.75 and over is 5, 4.25 to 4.74 is 4-5, under 1.25 is 1. */
export function gradeOfScore(score: number): GreyGrade {
  const halves = Math.min(8, Math.max(0, Math.ceil((5 - score) * 2 - 0.5)))
  return GREY_GRADES[halves]!
}

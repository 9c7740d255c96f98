import type { PlanWarning } from './plan-warning.ts'

/** How temperatures are written: each gets °C (or °C a minute) and answers with the number and its unit. */
export interface TempWords {
  temp(tempC: number): string
  difference(differenceC: number): string
  rate(rateCPerMin: number): string
}

const short = (value: number): string => String(Math.round(value * 10) / 10)

export const CELSIUS_WORDS: TempWords = {
  temp: (tempC) => `${short(tempC)} °C`,
  difference: (differenceC) => `${short(differenceC)} °C`,
  rate: (rateCPerMin) => `${short(rateCPerMin)} °C a minute`,
}

/** A warning as one sentence: what was found, what is usual, and why it matters at the pot. */
export function planWarningText(warning: PlanWarning, words: TempWords = CELSIUS_WORDS): string {
  return `stage "${warning.stageId}": ${sentence(warning, words)}`
}

function sentence(w: PlanWarning, words: TempWords): string {
  switch (w.kind) {
    case 'ceiling-over-fibre':
      return `the ceiling of ${words.temp(w.ceilingC)} is over what ${w.fibre} usually bears, ${words.temp(w.limitC)}`
    case 'window-over-fibre':
      return `the window goes up to ${words.temp(w.topC)}; ${w.fibre} usually bears ${words.temp(w.limitC)}`
    case 'window-over-boil':
      return `the window begins at ${words.temp(w.bottomC)}, but water boils here at ${words.temp(w.boilC)}: it can’t be reached`
    case 'top-over-boil':
      return `the window goes up to ${words.temp(w.topC)}, but water boils here at ${words.temp(w.boilC)}`
    case 'ceiling-over-boil':
      return `the ceiling of ${words.temp(w.ceilingC)} can’t be passed, water boils here at ${words.temp(w.boilC)}; set it lower to be called in time`
    case 'no-ceiling':
      return 'there is no ceiling, so nothing calls when the bath gets far too hot'
    case 'ceiling-close':
      return `the ceiling is only ${words.difference(w.roomC)} over the window, less than a probe may be wrong by`
    case 'narrow-window':
      return `the window is only ${words.difference(w.widthC)} wide, less than a probe can tell for certain`
    case 'fast-heating':
      return `heating at ${words.rate(w.rateCPerMin)} is fast for ${w.fibre}; up to ${words.rate(w.usualCPerMin)} is usual`
    case 'fast-cooling':
      return `cooling at ${words.rate(w.rateCPerMin)} is fast for ${w.fibre} and may felt it; up to ${words.rate(w.usualCPerMin)} is usual`
    default:
      return otherSentence(w, words)
  }
}

type TempKind =
  | `${string}-over-${string}`
  | 'no-ceiling'
  | 'ceiling-close'
  | 'narrow-window'
  | `fast-${string}`

function otherSentence(w: Exclude<PlanWarning, { readonly kind: TempKind }>, words: TempWords): string {
  switch (w.kind) {
    case 'short-hold':
      return `a hold of ${short(w.holdMin)} min is short; ${w.usualMin} min or more is usual`
    case 'long-hold':
      return `a hold of ${short(w.holdMin)} min is long; up to ${w.usualMin} min is usual`
    case 'out-before-done':
      return `the goods must be out after ${short(w.outByMin)} min, before the hold of ${short(w.holdMin)} min is done`
    case 'rare-turning':
      return `turning every ${short(w.turnEveryMin)} min is rare; every ${w.usualMin} min or more often keeps the colour even`
    case 'ph-unkind':
      return `pH ${short(w.ph)} is hard on ${w.fibre} in a hot bath or on its mordant; ${w.usual[0]} to ${w.usual[1]} is usual`
    case 'odd-amount':
      return `${w.additive} at ${short(w.percentWof)} % of the dry weight is a lot; up to ${w.usual} % is usual`
    case 'odd-ratio':
      return `a liquor ratio of ${short(w.liquorRatio)}:1 is unusual; ${w.usual[0]}:1 to ${w.usual[1]}:1 is common`
    case 'lifted-hot':
      return 'no cool-down follows; wool lifted hot and rinsed cold may felt'
    case 'cools-long':
      return `${words.temp(w.coolToC)} is about as cool as the room (${words.temp(w.airC)}), so the end may never come`
    default:
      return w satisfies never
  }
}

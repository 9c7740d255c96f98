import type { PlanWarningCatalogue } from './plan-warning-catalogue.ts'

const fibres = { wool: 'wool', silk: 'silk', cellulose: 'cellulose' } as const

/** English. */
export const ENGLISH_PLAN_WARNINGS: PlanWarningCatalogue = {
  fibres,
  at: (stage, sentence) => `stage "${stage}": ${sentence}`,
  sentences: {
    'ceiling-over-fibre': (w, n) =>
      `the ceiling of ${n.temp(w.ceilingC)} is over what ${fibres[w.fibre]} usually bears, ${n.temp(w.limitC)}`,
    'window-over-fibre': (w, n) =>
      `the window goes up to ${n.temp(w.topC)}; ${fibres[w.fibre]} usually bears ${n.temp(w.limitC)}`,
    'window-over-boil': (w, n) =>
      `the window begins at ${n.temp(w.bottomC)}, but water boils here at ${n.temp(w.boilC)}: it can’t be reached`,
    'top-over-boil': (w, n) =>
      `the window goes up to ${n.temp(w.topC)}, but water boils here at ${n.temp(w.boilC)}`,
    'ceiling-over-boil': (w, n) =>
      `the ceiling of ${n.temp(w.ceilingC)} can’t be passed, water boils here at ${n.temp(w.boilC)}; set it lower to be called in time`,
    'no-ceiling': () => 'there is no ceiling, so nothing calls when the bath gets far too hot',
    'ceiling-close': (w, n) =>
      `the ceiling is only ${n.difference(w.roomC)} over the window, less than a probe may be wrong by`,
    'narrow-window': (w, n) =>
      `the window is only ${n.difference(w.widthC)} wide, less than a probe can tell for certain`,
    'fast-heating': (w, n) =>
      `heating at ${n.difference(w.rateCPerMin)} a minute is fast for ${fibres[w.fibre]}; up to ${n.difference(w.usualCPerMin)} a minute is usual`,
    'fast-cooling': (w, n) =>
      `cooling at ${n.difference(w.rateCPerMin)} a minute is fast for ${fibres[w.fibre]} and may felt it; up to ${n.difference(w.usualCPerMin)} a minute is usual`,
    'short-hold': (w, n) =>
      `a hold of ${n.number(w.holdMin)} min is short; ${w.usualMin} min or more is usual`,
    'long-hold': (w, n) => `a hold of ${n.number(w.holdMin)} min is long; up to ${w.usualMin} min is usual`,
    'out-before-done': (w, n) =>
      `the goods must be out after ${n.number(w.outByMin)} min, before the hold of ${n.number(w.holdMin)} min is done`,
    'rare-turning': (w, n) =>
      `turning every ${n.number(w.turnEveryMin)} min is rare; every ${w.usualMin} min or more often keeps the colour even`,
    'ph-unkind': (w, n) =>
      `pH ${n.number(w.ph)} is hard on ${fibres[w.fibre]} in a hot bath or on its mordant; ${w.usual[0]} to ${w.usual[1]} is usual`,
    'odd-amount': (w, n) =>
      `${w.additive} at ${n.number(w.percentWof)} % of the dry weight is a lot; up to ${w.usual} % is usual`,
    'odd-ratio': (w, n) =>
      `a liquor ratio of ${n.number(w.liquorRatio)}:1 is unusual; ${w.usual[0]}:1 to ${w.usual[1]}:1 is common`,
    'lifted-hot': () => 'no cool-down follows; wool lifted hot and rinsed cold may felt',
    'cools-long': (w, n) =>
      `${n.temp(w.coolToC)} is about as cool as the room (${n.temp(w.airC)}), so the end may never come`,
  },
}

import type { AdviceCatalogue, HeatUpParts, HoldParts } from './advice-catalogue.ts'

function heatUp(p: HeatUpParts): string {
  const rest = `it will coast to ${p.peak} and hold between ${p.low} and ${p.high}`
  if (p.isNow) return `Turn down to about ${p.holdDial} now; ${rest}.`
  const first = p.heatDial === null ? 'Turn down' : `Heat at about ${p.heatDial}, then turn down`
  const when = p.reachesAt === null ? '' : ` In the middle of the window at about ${p.reachesAt}.`
  return `${first} to about ${p.holdDial} at ${p.turnDownAt}; ${rest}.${when}`
}

function hold(p: HoldParts): string {
  const lid = p.otherLid === null ? '' : ` With the lid ${p.otherLid.lid} it takes about ${p.otherLid.dial}.`
  const range = `holds between ${p.low} and ${p.high}`
  if (p.isSet) return `The dial stands well: about ${p.holdDial} ${range}.${lid}`
  const turn = p.leaves === null ? '' : `Turn ${p.leaves === 'top' ? 'down' : 'up'}: `
  const drift = p.settles === null ? 'leave the window' : `drift to ${p.settles}`
  const now = p.leaves === null ? '' : ` As it is noted now the bath would ${drift}.`
  return `${turn}about ${p.holdDial} on the dial ${range}.${now}${lid}`.replace(/^a/, 'A')
}

/** English. What to turn, to where, when, and what comes of it. */
export const ENGLISH_ADVICE: AdviceCatalogue = {
  heatUp,
  hold,
  cool: (coolTo, otherLid, at) =>
    `With the lid ${otherLid} from now on it would be at ${coolTo} by about ${at}.`,
  tooWarm: (holdDial, low, high) =>
    `Turn off until it is back in the window, then to about ${holdDial}, which holds between ${low} and ${high}.`,
  outOfReach: (most, lid) =>
    `Even at its top this burner brings the bath to about ${most} only${lid === 'off' ? ': put the lid on' : ''}.`,
  guess: (advice) => `A guess, as this burner is not learned yet: ${advice}`,
  losesMore: (times, lid) =>
    `This pot loses heat ${times} times as fast as it should${lid === 'on' ? ': is the lid off' : ': is there a draught, or water missing'}?`,
  losesLess: (times) =>
    `This pot loses heat only ${times} times as fast as it should: is the lid on, or a burner?`,
  noHeat: () => 'Hardly any heat reaches this pot: is it the right burner, and lit?',
  unlike: (foundW, expectedW, isMore) =>
    `This pot gets about ${foundW} where the noted dial gives ${expectedW}: is the dial ${isMore ? 'higher' : 'lower'} than noted, or the lid not as noted?`,
}

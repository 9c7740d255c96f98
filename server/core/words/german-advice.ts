import type { AdviceCatalogue, HeatUpParts, HoldParts } from './advice-catalogue.ts'

const LID: Readonly<Record<'on' | 'off', string>> = { on: 'Mit Deckel', off: 'Ohne Deckel' }

function heatUp(p: HeatUpParts): string {
  const rest = `das Bad steigt dann noch bis ${p.peak} und bleibt zwischen ${p.low} und ${p.high}`
  if (p.isNow) return `Jetzt auf etwa ${p.holdDial} zurückdrehen; ${rest}.`
  const turn = `bei ${p.turnDownAt} auf etwa ${p.holdDial} zurückdrehen`
  const first = p.heatDial === null ? sentence(turn) : `Mit etwa ${p.heatDial} aufheizen, dann ${turn}`
  const when = p.reachesAt === null ? '' : ` In der Mitte des Fensters etwa um ${p.reachesAt}.`
  return `${first}; ${rest}.${when}`
}

const sentence = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}`

function hold(p: HoldParts): string {
  const lid = p.otherLid === null ? '' : ` ${LID[p.otherLid.lid]} braucht es etwa ${p.otherLid.dial}.`
  const range = `bleibt das Bad zwischen ${p.low} und ${p.high}`
  if (p.isSet) return `Der Regler steht gut: mit etwa ${p.holdDial} ${range}.${lid}`
  const turn = p.leaves === null ? '' : `${p.leaves === 'top' ? 'Zurückdrehen' : 'Aufdrehen'}: `
  const drift = p.settles === null ? 'aus dem Fenster' : `auf ${p.settles}`
  const now = p.leaves === null ? '' : ` So, wie er notiert ist, liefe das Bad ${drift}.`
  return `${sentence(`${turn}mit etwa ${p.holdDial} am Regler ${range}`)}.${now}${lid}`
}

/** German. The same advice in the same order as in English; the dyer is told what to do, as on a slip of paper. */
export const GERMAN_ADVICE: AdviceCatalogue = {
  heatUp,
  hold,
  cool: (coolTo, otherLid, at) => `${LID[otherLid]} wäre es von jetzt an etwa um ${at} auf ${coolTo}.`,
  tooWarm: (holdDial, low, high) =>
    `Abdrehen, bis es wieder im Fenster ist, dann auf etwa ${holdDial}: das hält zwischen ${low} und ${high}.`,
  outOfReach: (most, lid) =>
    `Auch ganz aufgedreht bringt diese Platte das Bad nur auf etwa ${most}${lid === 'off' ? ': Deckel auflegen' : ''}.`,
  guess: (advice) => `Geschätzt, denn diese Platte ist noch nicht eingelernt: ${advice}`,
  losesMore: (times, lid) =>
    `Dieser Topf verliert ${times}-mal so schnell Wärme, wie er sollte${lid === 'on' ? ': ist der Deckel ab' : ': zieht es, oder fehlt Wasser'}?`,
  losesLess: (times) =>
    `Dieser Topf verliert nur ${times}-mal so schnell Wärme, wie er sollte: liegt der Deckel auf, oder ist eine Platte an?`,
  noHeat: () => 'Bei diesem Topf kommt kaum Hitze an: ist es die richtige Platte, und ist sie an?',
  unlike: (foundW, expectedW, isMore) =>
    `Dieser Topf bekommt etwa ${foundW}, der notierte Regler gäbe ${expectedW}: steht der Regler ${isMore ? 'höher' : 'tiefer'} als notiert, oder ist es mit dem Deckel anders als notiert?`,
}

import type { BurnerKind, Vessel } from '#core/bath/vessel'
import { type Seeded, seeded } from './seeded.ts'

/**
 * A pot on a burner with physics that the model of `core/bath` does not have: an element with a temperature of its
 * own that also heats the room, two layers that mix well only when the lower one is hotter, walls whose coefficient
 * bends, evaporation by a straight-line formula with a draught, a burner that goes on and off, a dial curve of any
 * shape, mains that wander, a room that swings, and a probe that lags and rounds. The vessel file is what a dyer
 * would write: a little wrong.
 */
export interface LabPot {
  readonly vessel: Vessel
  readonly kind: BurnerKind
  readonly litres: number
  readonly roomC: number
  readonly physics: Physics
  readonly random: Seeded
}

interface Physics {
  readonly waterJPerC: number
  readonly steelJPerC: number
  readonly topM2: number
  readonly wallM2: number
  readonly wallW: number
  readonly lidW: number
  readonly leak: number
  readonly draughtMPerS: number
  readonly ratedW: number
  /** Share of the power that goes straight into the pot; the rest warms the element. */
  readonly direct: number
  /** Share of the rest that neither reaches pot nor element. */
  readonly lost: number
  readonly elementJPerC: number
  readonly elementToPot: number
  readonly elementToRoom: number
  readonly dialCurve: (share: number) => number
  readonly cycleS: number
  readonly swingC: number
  readonly swingPhase: number
  readonly probeLagS: number
  readonly probeTop: number
  readonly probeStepC: number
}

export interface LabState {
  readonly atS: number
  readonly bottomC: number
  readonly topC: number
  readonly elementC: number
  readonly probeC: number
  readonly waterLeft: number
  readonly mains: number
}

export interface LabSetting {
  readonly dial: number
  readonly lid: 'on' | 'off'
}

export const DIAL_MAX = 10

/** A pot of about these litres on such a burner; everything else comes from the seed. */
export function labPot(litres: number, kind: BurnerKind, seed: number): LabPot {
  const random = seeded(seed * 7919 + 13)
  const diameterM = Math.cbrt((4 * litres) / 1000 / (Math.PI * random.between(0.7, 1.15)))
  const topM2 = (Math.PI * diameterM ** 2) / 4
  const steelKg = (0.7 + 0.12 * litres) * random.between(0.8, 1.3)
  const ratedW = RATED[kind] * (litres > 25 ? 1.6 : 1) * random.between(0.85, 1.2)
  const roomC = random.between(15, 23)
  const depthM = litres / 1000 / topM2
  const physics: Physics = {
    waterJPerC: litres * 0.998 * 4187,
    steelJPerC: steelKg * 500,
    topM2,
    wallM2: Math.PI * diameterM * depthM,
    wallW: 9 * Math.exp(random.normal(0, 0.25)),
    lidW: 7 * Math.exp(random.normal(0, 0.25)),
    leak: random.between(0.002, 0.04),
    draughtMPerS: random.between(0, 0.25),
    ratedW,
    ...ELEMENT[kind],
    elementJPerC: ELEMENT[kind].elementJPerC * random.between(0.8, 1.25),
    dialCurve: dialCurve(kind, random),
    cycleS: kind === 'gas' ? 0 : random.between(15, 50),
    swingC: random.between(0, 1),
    swingPhase: random.between(0, 6.28),
    probeLagS: random.between(5, 20),
    probeTop: random.between(0.35, 0.65),
    probeStepC: random.pick([0.0625, 0.1]),
  }
  const vessel: Vessel = {
    litres: round(litres * random.between(0.97, 1.03), 1),
    diameterCm: Math.round(diameterM * 100),
    emptyKg: round(steelKg, 1),
    material: 'stainless steel',
    surroundingsC: Math.round(roomC),
    burner: { kind, dialMax: DIAL_MAX, ratedW: Math.round(ratedW / 100) * 100 },
  }
  return { vessel, kind, litres, roomC, physics, random }
}

const RATED: Readonly<Record<BurnerKind, number>> = { coil: 2000, plate: 1700, gas: 4000, induction: 2000 }

const ELEMENT = {
  coil: { direct: 0, lost: 0.05, elementJPerC: 480, elementToPot: 5.6, elementToRoom: 1.4 },
  plate: { direct: 0, lost: 0.02, elementJPerC: 1900, elementToPot: 5.2, elementToRoom: 2.2 },
  gas: { direct: 0.36, lost: 0.5, elementJPerC: 400, elementToPot: 4, elementToRoom: 4 },
  induction: { direct: 0.8, lost: 0.1, elementJPerC: 900, elementToPot: 9, elementToRoom: 1.5 },
} as const

/** Shapes that dials have: near straight, late, S-shaped, with a least flame. */
function dialCurve(kind: BurnerKind, random: Seeded): (share: number) => number {
  const bend = random.between(0.85, 1.7)
  const least = random.between(0.03, 0.12)
  const ess = random.between(0, 0.25)
  const smooth = (share: number) => {
    const base = share ** bend
    return base + ess * Math.sin(2 * Math.PI * share) * -0.25 * share
  }
  if (kind === 'gas') return (share) => (share <= 0 ? 0 : least + (1 - least) * smooth(share))
  return (share) => Math.max(0, smooth(share))
}

export const labStart = (pot: LabPot, tempC = pot.roomC): LabState => ({
  atS: 0,
  bottomC: tempC,
  topC: tempC,
  elementC: Math.max(tempC, pot.roomC),
  probeC: tempC,
  waterLeft: 1,
  mains: 1,
})

/** One second. */
export function labStep(pot: LabPot, state: LabState, setting: LabSetting): LabState {
  const p = pot.physics
  const roomC = pot.roomC + p.swingC * Math.sin((2 * Math.PI * state.atS) / 21_600 + p.swingPhase)
  const mains = state.mains + (1 - state.mains) / 3000 + pot.random.normal(0, 0.0006)
  const electricW = p.ratedW * mains * cycled(p, setting.dial / DIAL_MAX, state.atS)
  const elementToPotW = p.elementToPot * (state.elementC - state.bottomC)
  const intoElementW = electricW * (1 - p.direct - p.lost)
  const elementC =
    state.elementC +
    (intoElementW - elementToPotW - p.elementToRoom * (state.elementC - roomC)) / p.elementJPerC
  const mixW = mixing(pot, state) * (state.bottomC - state.topC)
  const half = (p.waterJPerC * state.waterLeft + p.steelJPerC) / 2
  const wall = (tempC: number) => wallLossW(p, tempC, roomC) / 2
  const surfaceW = topLossW(p, setting.lid, state.topC, roomC)
  const bottomC = state.bottomC + (electricW * p.direct + elementToPotW - mixW - wall(state.bottomC)) / half
  const topC = state.topC + (mixW - wall(state.topC) - surfaceW) / half
  const seenC = p.probeTop * topC + (1 - p.probeTop) * bottomC
  const gone = setting.lid === 'off' ? surfaceW / 2.6e6 / (pot.litres * 0.998) : 0
  return {
    atS: state.atS + 1,
    bottomC: Math.min(bottomC, 99.9),
    topC: Math.min(topC, 99.9),
    elementC,
    probeC: state.probeC + (seenC - state.probeC) / p.probeLagS,
    waterLeft: state.waterLeft - gone,
    mains,
  }
}

/** What the probe says: with noise, in its own steps. */
export function labReadingC(pot: LabPot, state: LabState): number {
  const step = pot.physics.probeStepC
  return Math.round((state.probeC + pot.random.normal(0, 0.04)) / step) * step
}

export const labWaterC = (state: LabState): number => (state.bottomC + state.topC) / 2

function cycled(p: Physics, share: number, atS: number): number {
  const part = p.dialCurve(Math.min(1, Math.max(0, share)))
  if (p.cycleS === 0) return part
  const burntS = (s: number) =>
    Math.floor(s / p.cycleS) * part * p.cycleS + Math.min(s % p.cycleS, part * p.cycleS)
  return burntS(atS + 1) - burntS(atS)
}

/** Hot water rises by itself; upside down only a little passes. */
const mixing = (pot: LabPot, state: LabState): number =>
  (state.bottomC >= state.topC ? 60 : 4) * Math.max(8, pot.litres)

function wallLossW(p: Physics, tempC: number, roomC: number): number {
  const aboveC = tempC - roomC
  const convection = 0.55 * (Math.max(1, Math.abs(aboveC)) / 40) ** 0.25
  const radiation = 0.45 * (1 + 0.0035 * (aboveC - 40))
  return p.wallW * p.wallM2 * (convection + radiation) * aboveC
}

function topLossW(p: Physics, lid: 'on' | 'off', tempC: number, roomC: number): number {
  const vapourKPa = kPa(tempC) - 0.5 * kPa(roomC)
  const evaporationW = Math.max(0, (89 + 78 * p.draughtMPerS) * vapourKPa) * p.topM2
  const aboveC = tempC - roomC
  if (lid === 'on') return p.lidW * p.topM2 * aboveC + p.leak * evaporationW
  return (5 + 6) * p.topM2 * aboveC + evaporationW
}

/** Magnus' formula for the saturation pressure of water, kPa (another than the core's). */
const kPa = (tempC: number): number => 0.61094 * Math.exp((17.625 * tempC) / (tempC + 243.04))

/** Heat that a warm element brings to the water at a dial, averaged over the cycle, W. */
export function labHeatW(pot: LabPot, dial: number, waterC: number): number {
  const p = pot.physics
  const electricW = p.ratedW * p.dialCurve(Math.min(1, dial / DIAL_MAX))
  const intoElementW = electricW * (1 - p.direct - p.lost)
  const elementC =
    (intoElementW + p.elementToPot * waterC + p.elementToRoom * pot.roomC) /
    (p.elementToPot + p.elementToRoom)
  return electricW * p.direct + p.elementToPot * (elementC - waterC)
}

/** Loss to the room at its mean temperature, W. */
export const labLossW = (pot: LabPot, lid: 'on' | 'off', waterC: number): number =>
  wallLossW(pot.physics, waterC, pot.roomC) + topLossW(pot.physics, lid, waterC, pot.roomC)

/** The dial that truly holds a temperature; `null` when none does. */
export function labHoldDial(pot: LabPot, lid: 'on' | 'off', targetC: number): number | null {
  const lossW = labLossW(pot, lid, targetC)
  if (labHeatW(pot, DIAL_MAX, targetC) < lossW || labHeatW(pot, 0.01, targetC) > lossW) return null
  return bisect(0.01, DIAL_MAX, (dial) => labHeatW(pot, dial, targetC) - lossW)
}

/** Where the bath truly settles at a dial, °C. */
export const labSteadyC = (pot: LabPot, lid: 'on' | 'off', dial: number): number =>
  bisect(pot.roomC - 5, 99.9, (tempC) => labLossW(pot, lid, tempC) - labHeatW(pot, dial, tempC))

function bisect(low: number, high: number, f: (x: number) => number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 50; i++) {
    const middle = (a + b) / 2
    if (f(middle) < 0) a = middle
    else b = middle
  }
  return (a + b) / 2
}

const round = (value: number, digits: number): number => Math.round(value * 10 ** digits) / 10 ** digits

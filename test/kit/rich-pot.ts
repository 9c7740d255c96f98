import { type Seeded, seeded } from './seeded.ts'

export type RichBurner = 'coil' | 'plate' | 'gas' | 'induction'
export type RichLid = 'on' | 'off'

export interface RichPotSetup {
  /** 8–60 L. */
  readonly litres: number
  readonly burner: RichBurner
  readonly seed: number
  readonly startC?: number
  /** Nameplate, W; left out: what a studio would put under such a pot. */
  readonly ratedW?: number
  /** Dry goods that lie in it from the start, kg; they keep the layers apart. */
  readonly goodsKg?: number
  /** Time constant of the probe in the bath, seconds. */
  readonly probeLagS?: number
  /** Steps and trembling of its readings, °C. */
  readonly quantumC?: number
  readonly noiseC?: number
  /** Where the tip hangs: 0 on the bottom, 1 at the surface. */
  readonly depth01?: number
  /** How much draughts move the losses: standard deviation of what a time constant of ten minutes adds; 0.03. */
  readonly draughts?: number
  /** The burner may go on and off within a step; else its duty is known to a step's share of the cycle only. */
  readonly finelyCycled?: boolean
}

export interface RichPotMoment {
  /** True temperatures of the lower and the upper half and of the bath as a whole, °C. */
  readonly bottomC: number
  readonly topC: number
  readonly meanC: number
  /** What a reading taken now would say. */
  readonly readingC: number
  /** The bath where the tip hangs, without the probe's lag, °C. */
  readonly atTipC: number
  /** The probe's own temperature: lagging, but neither trembling nor counted in steps, °C. */
  readonly probeC: number
  /** Heat that goes into the water now, W. */
  readonly heatW: number
}

/** Duty cycle, seconds (0: continuous); heat that comes late, seconds; share of the rating that arrives. */
const BURNERS: Readonly<Record<RichBurner, { cycleS: number; lateS: number; share: number }>> = {
  coil: { cycleS: 45, lateS: 60, share: 0.7 },
  plate: { cycleS: 80, lateS: 230, share: 0.62 },
  gas: { cycleS: 0, lateS: 18, share: 0.4 },
  induction: { cycleS: 8, lateS: 12, share: 0.82 },
}

const WATER_J_PER_KG_C = 4186
const ROOM_HUMIDITY = 0.5
/** A 6 mm probe in still air falls with about this time constant (trade notes, calculated). */
const AIR_LAG_S = 68

/**
 * A pot with more physics than any rule of the program knows: two layers that mix well when heated from
 * below and badly when not, an element that stores heat and clicks on and off, evaporation by vapour
 * pressure, draughts that come and go, a lagging, trembling probe that counts in steps. All chance comes from
 * the seed. Orders of magnitude from handbooks and the trade notes; no figure is shared with the program.
 */
export class RichPot {
  readonly #chance: Seeded
  readonly #setup: RichPotSetup
  readonly litres: number
  readonly #burner: { cycleS: number; lateS: number; share: number }
  readonly #ratedW: number
  readonly #wallW: number
  #kg: number
  #goodsKg: number
  #bottomC: number
  #topC: number
  #elementW = 0
  #probeC: number
  #draught = 0
  #plumeC = 0
  #cycle = 0
  #probeOut = false

  constructor(setup: RichPotSetup) {
    this.#setup = setup
    this.litres = setup.litres
    this.#chance = seeded(setup.seed)
    const vary = (value: number, by: number) => value * this.#chance.between(1 - by, 1 + by)
    const burner = BURNERS[setup.burner]
    this.#burner = { cycleS: burner.cycleS, lateS: vary(burner.lateS, 0.2), share: vary(burner.share, 0.1) }
    this.#ratedW = setup.ratedW ?? usualW(setup.litres, setup.burner)
    this.#wallW = vary(9.5, 0.2)
    this.#kg = setup.litres
    this.#goodsKg = setup.goodsKg ?? 0
    const startC = setup.startC ?? 18
    this.#bottomC = startC
    this.#topC = startC
    this.#probeC = startC
  }

  /** A step of at most a few seconds. `dial01`: 0 off … 1 full. */
  step(dtS: number, dial01: number, lid: RichLid, roomC: number): RichPotMoment {
    const heatW = this.#heat(dtS, dial01)
    const { draughts = 0.03 } = this.#setup
    this.#draught += (-this.#draught * dtS) / 600 + this.#chance.normal() * Math.sqrt(dtS / 600) * draughts
    const layerJ = this.#layerJPerC()
    const mixW = this.#mixingW(layerJ, heatW)
    const sideW = this.#wallW * (1 + 0.5 * this.#draught) * (this.#wallM2() / 2)
    const lowLossW = sideW * (this.#bottomC - roomC)
    const surfaceW = this.#surfaceW(lid, roomC, { topC: this.#topC, draught: this.#draught })
    const highLossW = sideW * (this.#topC - roomC) + surfaceW
    this.#bottomC += ((heatW - mixW - lowLossW) * dtS) / layerJ
    this.#topC += ((mixW - highLossW) * dtS) / layerJ
    this.#bottomC = Math.min(100.4, this.#bottomC)
    this.#topC = Math.min(100, this.#topC)
    this.#moveProbe(dtS, roomC, heatW)
    return this.#moment(heatW)
  }

  /** Nameplate, W. */
  get ratedW(): number {
    return this.#ratedW
  }

  /** Heat that flows into the water at a dial once the element is warm, W. */
  settledHeatW(dial01: number): number {
    return dial01 * this.#ratedW * this.#burner.share
  }

  /** What the pot gives to the room without a draught, W. */
  calmLossW(tempC: number, lid: RichLid, roomC: number): number {
    return (
      this.#wallW * this.#wallM2() * (tempC - roomC) + this.#surfaceW(lid, roomC, { topC: tempC, draught: 0 })
    )
  }

  /** Wet goods of a temperature go in at the top; they take their share of the heat at once. */
  addGoods(dryKg: number, waterKg: number, goodsC: number): void {
    const kg = waterKg + dryKg * 0.33
    this.pour(kg, goodsC)
    this.#goodsKg += dryKg
  }

  takeGoods(): void {
    this.#goodsKg = 0
  }

  /** Water is poured in and stirred under. */
  pour(kg: number, waterC: number): void {
    const mixedC = (this.#kg * this.#meanC() + kg * waterC) / (this.#kg + kg)
    this.#kg += kg
    this.#bottomC = mixedC
    this.#topC = mixedC
  }

  stir(): void {
    const meanC = this.#meanC()
    this.#bottomC = meanC + 0.1
    this.#topC = meanC - 0.1
  }

  liftProbe(): void {
    this.#probeOut = true
  }

  dipProbe(): void {
    this.#probeOut = false
  }

  #heat(dtS: number, dial01: number): number {
    const { cycleS, lateS, share } = this.#burner
    const from = this.#cycle
    this.#cycle = cycleS === 0 ? 0 : (from + dtS / cycleS) % 1
    const finely = () => ((burnt(from + dtS / cycleS, dial01) - burnt(from, dial01)) * cycleS) / dtS
    const atOnce = () => (this.#cycle < dial01 ? 1 : 0)
    const isOn = cycleS === 0 ? dial01 : this.#setup.finelyCycled === true ? finely() : atOnce()
    this.#elementW += ((isOn * this.#ratedW * share - this.#elementW) * dtS) / lateS
    return this.#elementW
  }

  /** From below the bath mixes itself, unless goods lie packed; still water keeps its layers. */
  #mixingW(layerJ: number, heatW: number): number {
    const packed = 1 + (8 * this.#goodsKg) / (0.05 * this.#kg)
    const upC = this.#bottomC - this.#topC
    const s = upC > 0 ? (heatW > 20 ? 25 : 60) * packed : 900
    return (layerJ / s) * upC
  }

  /** Vapour pressure drives it (a pool designer's formula, still air); a lid lets a few per cent through. */
  #surfaceW(lid: RichLid, roomC: number, { topC, draught }: { topC: number; draught: number }): number {
    const m2 = this.#topM2()
    const vapourPa = 611.2 * Math.exp((17.62 * topC) / (243.12 + topC))
    const roomPa = ROOM_HUMIDITY * 611.2 * Math.exp((17.62 * roomC) / (243.12 + roomC))
    const open = lid === 'off' ? 1 : 0.03
    const evaporationW = open * 0.097 * (1 + draught) * (vapourPa - roomPa)
    const dryW = (lid === 'off' ? 11 : 7) * (topC - roomC)
    return m2 * (Math.max(0, evaporationW) + dryW)
  }

  #moveProbe(dtS: number, roomC: number, heatW: number): void {
    const spread = 0.02 + 0.00006 * heatW
    this.#plumeC += (-this.#plumeC * dtS) / 8 + this.#chance.normal() * Math.sqrt(dtS / 8) * spread
    const lagS = this.#probeOut ? AIR_LAG_S : (this.#setup.probeLagS ?? 12)
    const aroundC = this.#probeOut ? roomC + 8 : this.#atTipC() + this.#plumeC
    this.#probeC += (aroundC - this.#probeC) * (1 - Math.exp(-dtS / lagS))
  }

  #moment(heatW: number): RichPotMoment {
    const { quantumC = 0.0625, noiseC = 0.03 } = this.#setup
    const shown = this.#probeC + this.#chance.normal() * noiseC
    const readingC = quantumC === 0 ? shown : Math.round(shown / quantumC) * quantumC
    return {
      bottomC: this.#bottomC,
      topC: this.#topC,
      meanC: this.#meanC(),
      readingC: Number(readingC.toFixed(4)),
      atTipC: this.#atTipC(),
      probeC: this.#probeC,
      heatW,
    }
  }

  #atTipC(): number {
    const part = Math.min(1, Math.max(0, 0.5 + ((this.#setup.depth01 ?? 0.5) - 0.5) * 2))
    return this.#bottomC + (this.#topC - this.#bottomC) * part
  }

  #meanC = (): number => (this.#bottomC + this.#topC) / 2
  #layerJPerC = (): number => (this.#kg * WATER_J_PER_KG_C + (0.8 + 0.11 * this.#setup.litres) * 500) / 2
  #diameterM = (): number => Math.cbrt((4 * (this.#setup.litres / 1000)) / (Math.PI * 1.02))
  #topM2 = (): number => (Math.PI * this.#diameterM() ** 2) / 4
  #wallM2 = (): number => Math.PI * this.#diameterM() * (this.#setup.litres / 1000 / this.#topM2())
}

/** For how much of so many cycles a burner was on that is on for a share of each. */
const burnt = (cycles: number, share: number): number =>
  Math.floor(cycles) * share + Math.min(cycles % 1, share)

/** What stands under such a pot in a studio, W (common practice, no source). */
function usualW(litres: number, burner: RichBurner): number {
  const electric = litres <= 12 ? 1500 : litres <= 25 ? 2200 : litres <= 45 ? 3000 : 3500
  return burner === 'gas' ? electric * 2.2 : electric
}

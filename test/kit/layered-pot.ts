import { type Seeded, seeded } from './seeded.ts'

/**
 * A pot in finite differences, written apart from the model of `core/bath` and from the other kits: ten layers of
 * water with a wall of its own beside each, a hotplate beneath, a lid with a temperature of its own, evaporation that
 * condenses on it. Units SI, temperatures °C. Coefficients are of the size that handbooks give for still air.
 */
export interface LayeredSetup {
  readonly litres: number
  readonly diameterM: number
  readonly emptyKg: number
  /** Electric or gas power at the top of the dial, W, and the share of it for each share of the dial. */
  readonly fullW: number
  readonly curve: (share: number) => number
  /** Heat capacity of what glows under the pot, J/°C, and how well it is in touch with it, W/°C. */
  readonly plateJPerC: number
  readonly touchWPerC: number
  readonly dialMax: number
  readonly roomC: number
  readonly startC: number
  readonly seed: number
  /** Steps of the probe's display, °C, seconds between readings, and its time constant. */
  readonly stepC: number
  readonly everyS: number
  readonly lagS: number
}

export interface LayeredRow {
  readonly atS: number
  readonly tempC: number
}

const LAYERS = 10
const WATER_J_PER_KG_C = 4182

export class LayeredPot {
  readonly setup: LayeredSetup
  readonly rows: LayeredRow[] = []
  readonly #random: Seeded
  readonly #water: number[]
  readonly #wall: number[]
  #kg: number
  #plateC: number
  #lidC: number
  #probeC: number
  #atS = 0
  #dial = 0
  #lidOn = true

  constructor(setup: LayeredSetup) {
    this.setup = setup
    this.#random = seeded(setup.seed)
    this.#kg = setup.litres * 0.998
    this.#water = Array<number>(LAYERS).fill(setup.startC)
    this.#wall = Array<number>(LAYERS).fill(setup.startC)
    this.#plateC = setup.roomC
    this.#lidC = setup.roomC
    this.#probeC = setup.startC
  }

  get atS(): number {
    return this.#atS
  }

  get meanC(): number {
    return this.#water.reduce((sum, c) => sum + c, 0) / LAYERS
  }

  turn(dial: number): void {
    this.#dial = dial
  }

  cover(on: boolean): void {
    this.#lidOn = on
  }

  stir(): void {
    this.#water.fill(this.meanC)
  }

  pour(kg: number, tempC: number): void {
    this.#water.fill((this.meanC * this.#kg + kg * tempC) / (this.#kg + kg))
    this.#kg += kg
  }

  /** On for so long, or until the mean comes to `untilC` from either side. */
  wait(minutes: number, untilC?: number): void {
    const wasBelow = untilC !== undefined && this.meanC < untilC
    for (let s = 0; s < minutes * 60; s++) {
      this.#second()
      if (this.#atS % this.setup.everyS === 0) this.rows.push({ atS: this.#atS, tempC: this.#shown() })
      if (untilC !== undefined && this.meanC < untilC !== wasBelow) return
    }
  }

  /** Where it settles if nothing is touched: the mean after so long that nothing moves. Leaves no rows. */
  settledC(dial: number, lidOn: boolean): number {
    const twin = new LayeredPot({ ...this.setup, startC: 60 })
    twin.turn(dial)
    twin.cover(lidOn)
    let before = Number.NaN
    for (let hour = 0; hour < 60; hour++) {
      for (let s = 0; s < 3600; s++) twin.#second()
      if (Math.abs(twin.meanC - before) < 0.02) break
      before = twin.meanC
      twin.#kg = this.setup.litres * 0.998
    }
    return twin.meanC
  }

  #shown(): number {
    const { stepC } = this.setup
    return Number((Math.round((this.#probeC + this.#random.normal(0, 0.03)) / stepC) * stepC).toFixed(4))
  }

  #second(): void {
    this.#atS += 1
    const { plateJPerC, touchWPerC, roomC, fullW, curve, dialMax, lagS } = this.setup
    const intoPlateW = this.#dial > 0 ? fullW * curve(Math.min(1, this.#dial / dialMax)) : 0
    const upW = touchWPerC * (this.#plateC - this.#water[0]!)
    const plateRoomW = 0.03 * touchWPerC * (this.#plateC - roomC)
    this.#plateC += (intoPlateW - upW - plateRoomW) / plateJPerC
    const layerJ = (this.#kg * WATER_J_PER_KG_C) / LAYERS
    this.#water[0]! += upW / layerJ
    this.#sides(layerJ)
    this.#surface(layerJ)
    this.#mix()
    this.#probeC += (this.#water[5]! - this.#probeC) / lagS
  }

  #sides(layerJ: number): void {
    const { litres, diameterM, emptyKg, roomC } = this.setup
    const heightM = litres / 1000 / this.#topM2
    const strip = (Math.PI * diameterM * heightM) / LAYERS
    const wallJ = (emptyKg * 500) / LAYERS
    for (let i = 0; i < LAYERS; i++) {
      const aboveC = this.#wall[i]! - roomC
      const air = 1.42 * (Math.abs(aboveC) / heightM) ** 0.25 + 0.3 * 6.2 * (1 + 0.004 * aboveC)
      const intoWallW = 300 * strip * (this.#water[i]! - this.#wall[i]!)
      this.#wall[i]! += (intoWallW - air * strip * aboveC) / wallJ
      this.#water[i]! -= intoWallW / layerJ
    }
  }

  #surface(layerJ: number): void {
    const { roomC } = this.setup
    const topC = this.#water[LAYERS - 1]!
    // Steam rises to the lid and drips back; an open surface gives it to the room.
    const aboveC = Math.max(0, topC - (this.#lidOn ? this.#lidC : roomC))
    const wet = (this.#lidOn ? 3 : 2.4) * aboveC ** 0.3
    const steamW =
      0.0145 * wet * Math.max(0, vapour(topC) - (this.#lidOn ? vapour(this.#lidC) : 0.45 * vapour(roomC)))
    const lostW = this.#topM2 * (wet * aboveC + steamW + (this.#lidOn ? 1 : 5.5) * aboveC)
    this.#water[LAYERS - 1]! -= lostW / layerJ
    if (!this.#lidOn) this.#kg -= (this.#topM2 * steamW) / 2.3e6
    const lidAboveC = this.#lidC - roomC
    const lidOutW = this.#topM2 * (2.1 * Math.abs(lidAboveC) ** 0.25 + 2.2) * lidAboveC
    this.#lidC += ((this.#lidOn ? lostW : 0) - lidOutW) / 400
  }

  /** A layer that is warmer than the one over it turns over with it; else heat creeps down. */
  #mix(): void {
    for (let pass = 0; pass < 5; pass++)
      for (let i = 0; i + 1 < LAYERS; i++) {
        const upC = this.#water[i]! - this.#water[i + 1]!
        const moved = upC > 0 ? 0.45 * upC : pass === 0 ? 0.0006 * upC : 0
        this.#water[i]! -= moved
        this.#water[i + 1]! += moved
      }
    for (let i = 0; i < LAYERS; i++) this.#water[i] = Math.min(99.97, this.#water[i]!)
  }

  get #topM2(): number {
    return (Math.PI * this.setup.diameterM ** 2) / 4
  }
}

/** Saturation pressure of water, Pa (Magnus' formula). */
const vapour = (tempC: number): number => 610.94 * Math.exp((17.625 * tempC) / (tempC + 243.04))

import { startPot } from '#core/bath/simulated-pot'
import type { Vessel } from '#core/bath/vessel'

/** The invented studio of the demo. Every name, weight and result in this folder is made up. */
export interface DemoPot {
  readonly title: string
  readonly probe: string
  readonly vessel: Vessel
  /** Share of full power at equal steps of the dial: no two burners are alike. */
  readonly dialCurve: readonly number[]
  readonly lossFactor: number
  readonly lagS: number
}

/** The pot with water of a temperature in it, °C, its burner cold. */
export const filledPot = ({ vessel, dialCurve, lossFactor, lagS }: DemoPot, startC: number) =>
  startPot({ vessel, startC, dialCurve, lossFactor, probeLagS: lagS })

export const STUDIO = 'Saltmarsh Lane Dyehouse'
export const DYER = 'Ilse'
export const MONEY = 'EUR'
/** When her alarm clock rings. */
export const WAKE_AT = '06:30'
export const ROOM_C = 18

export const WREN: DemoPot = {
  title: 'Wren',
  probe: 'wren',
  vessel: {
    title: 'Wren on the hot plate',
    litres: 9,
    diameterCm: 24,
    emptyKg: 1.8,
    material: 'stainless steel',
    surroundingsC: ROOM_C,
    altitudeM: 30,
    burner: { kind: 'coil', dialMax: 6, ratedW: 1500 },
  },
  dialCurve: [0, 0.1, 0.22, 0.4, 0.6, 0.82, 1],
  lossFactor: 1.1,
  lagS: 8,
}

export const HERON: DemoPot = {
  title: 'Heron',
  probe: 'heron',
  vessel: {
    title: 'Heron on the range',
    litres: 16,
    diameterCm: 30,
    emptyKg: 2.6,
    material: 'stainless steel',
    surroundingsC: ROOM_C,
    altitudeM: 30,
    burner: { kind: 'coil', dialMax: 10, ratedW: 2400 },
  },
  dialCurve: [0, 0.04, 0.07, 0.11, 0.17, 0.26, 0.38, 0.53, 0.7, 0.86, 1],
  lossFactor: 1,
  lagS: 12,
}

export const OTTER: DemoPot = {
  title: 'Otter',
  probe: 'otter',
  vessel: {
    title: 'Otter on the gas ring',
    litres: 36,
    diameterCm: 36,
    emptyKg: 4.8,
    material: 'stainless steel',
    surroundingsC: ROOM_C,
    altitudeM: 30,
    burner: { kind: 'gas', dialMax: 4, ratedW: 9000 },
  },
  dialCurve: [0, 0.12, 0.35, 0.7, 1],
  lossFactor: 0.95,
  lagS: 14,
}

export const DEMO_POTS: readonly DemoPot[] = [WREN, HERON, OTTER]

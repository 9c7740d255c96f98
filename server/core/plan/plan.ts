import type { AlarmName, AlarmSetting } from './alarm-names.ts'

/** An amount of something that goes into the bath: per cent of the dry weight, or grams a litre. */
export type Additive = { readonly name: string; readonly note?: string } & (
  | { readonly percentWof: number }
  | { readonly gPerL: number }
)

/** What every stage has. Times in minutes, temperatures in °C. */
interface StageBase {
  /** Unique in its plan; letters, digits, `-`, `_`. */
  readonly id: string
  readonly title: string
  readonly additives: readonly Additive[]
  /** Litres of water a kilogram of dry goods: 25 means 25:1. */
  readonly liquorRatio?: number
  readonly phRange?: readonly [low: number, high: number]
  /** Where the values came from, or anything the dyer wants beside them. */
  readonly note?: string
  readonly cautions?: readonly string[]
}

/** Heated, with a window and a time in it. */
export interface HoldStage extends StageBase {
  readonly kind: 'hold'
  /** Both bounds count as in. */
  readonly windowC: readonly [low: number, high: number]
  readonly ceilingC?: number
  readonly holdMin: number
  readonly maxHeatingCPerMin?: number
  readonly maxCoolingCPerMin?: number
  readonly turnEveryMin?: number
  /** The goods must be out this many minutes after they went in. */
  readonly outByMin?: number
  /** `false`: an extraction, the hold needs no goods. */
  readonly goods: boolean
}

/** Heat off; ends at `coolToC`. */
export interface CoolStage extends StageBase {
  readonly kind: 'cool'
  readonly coolToC: number
  readonly maxCoolingCPerMin?: number
  readonly outByMin?: number
}

/** An unheated bath (`soak`), or no bath at all (`rest`), for a time. */
export interface SoakStage extends StageBase {
  readonly kind: 'soak'
  readonly minutes: number
  readonly ceilingC?: number
}
export interface RestStage extends StageBase {
  readonly kind: 'rest'
  readonly minutes: number
}

/** A band without a hold; dips are events. */
export interface KeepWarmStage extends StageBase {
  readonly kind: 'keep-warm'
  readonly windowC: readonly [low: number, high: number]
  readonly ceilingC?: number
  readonly minutes?: number
  readonly maxHeatingCPerMin?: number
}

export type Stage = HoldStage | CoolStage | SoakStage | RestStage | KeepWarmStage

/** A chain of stages for one kind of goods. */
export interface Plan {
  readonly title: string
  /** As the dyer wrote it: `wool`, `linen`, `silk`, … */
  readonly fibre?: string
  readonly stages: readonly Stage[]
  /** Delays and deadbands other than the defaults. */
  readonly alarms?: Readonly<Partial<Record<AlarmName, AlarmSetting>>>
}

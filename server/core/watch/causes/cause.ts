import type { AlarmName } from '../../plan/alarm-names.ts'
import type { AlarmReason } from '../happening.ts'
import type { PotView } from '../pot-view.ts'

/** One cause seen over several pots. `inhibits`: the single alarms that it takes the place of, in all of them. */
export interface Cause {
  readonly alarm: Extract<AlarmName, 'wrong-burner' | 'probes-swapped' | 'power-lost' | 'bridge-lost'>
  /** The pot to go to first, then the others. */
  readonly potIds: readonly string[]
  readonly sinceMs: number
  readonly reason: AlarmReason
  readonly inhibits: readonly AlarmName[]
}

/** What is remembered between two moments to find a cause. */
export interface CauseMemory {
  /** Pot id → since when its heating has stopped. */
  readonly stoppedMs: Readonly<Record<string, number>>
  readonly swap: SwapSuspect | null
  readonly bridgesDown: readonly string[]
  readonly standing: readonly StandingCause[]
}

/** Two readings that run toward each other's level. */
export interface SwapSuspect {
  readonly sinceMs: number
  readonly warm: SwapSide
  readonly cool: SwapSide
}

export interface SwapSide {
  readonly potId: string
  readonly probe: string
  /** Its level before, °C. */
  readonly beforeC: number
}

export interface StandingCause extends Cause {
  readonly raisedMs: number
}

export const NO_CAUSES: CauseMemory = { stoppedMs: {}, swap: null, bridgesDown: [], standing: [] }

/** Nothing is remembered: a single pot needs no look for causes. */
export const hasNoCauses = ({ stoppedMs, swap, bridgesDown, standing }: CauseMemory): boolean =>
  swap === null && bridgesDown.length === 0 && standing.length === 0 && Object.keys(stoppedMs).length === 0

export const byId = (views: readonly PotView[], potId: string): PotView | undefined =>
  views.find((v) => v.pot.potId === potId)

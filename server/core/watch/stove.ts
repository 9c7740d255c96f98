import type { PotForecast } from '../bath/pot-forecast.ts'
import type { AlarmName } from '../plan/alarm-names.ts'
import type { StageOutcome } from '../plan/outcome.ts'
import { type CauseMemory, NO_CAUSES, hasNoCauses } from './causes/cause.ts'
import { stepCauses } from './causes/step-causes.ts'
import type { Happening } from './happening.ts'
import { type CoolingOutcome, coolingOutcomesOf } from './cooling-outcome.ts'
import { type PotStep, finishStage, stepBatch, stepEvent } from './pot-events.ts'
import { forecastOf } from './forecast-of.ts'
import { type LiftTime, liftTimeOf, type Wake } from './lift-time.ts'
import { numbersOf } from './numbers-of.ts'
import type { PotNumbers } from './pot-numbers.ts'
import { stepReading } from './pot-readings.ts'
import { type PotState, startPot } from './pot-state.ts'
import { viewOf } from './pot-view.ts'
import { startSense, toldLag } from './probe-sense.ts'
import { noteAway, outcomeOf } from './stage-run.ts'
import { stepPot } from './step-pot.ts'
import type { PotSetup, StoveInput } from './stove-input.ts'
import type { WatchSettings } from './watch-settings.ts'

export type { CoolingOutcome }

/** All pots at once. Plain data; a step returns the next state and never changes the one it was given. */
export interface StoveState {
  readonly settings: WatchSettings
  /** The time of the last input, Unix ms. */
  readonly atMs: number
  readonly pots: Readonly<Record<string, PotState>>
  /** What is seen over several pots. */
  readonly causes: CauseMemory
}

export interface StoveStep {
  readonly state: StoveState
  readonly happenings: readonly Happening[]
}

export const startStove = (settings: WatchSettings = {}): StoveState => ({
  settings,
  atMs: 0,
  pots: {},
  causes: NO_CAUSES,
})

/**
 * The stove after one more input. Inputs come in time order; a reading older than the last of its probe
 * changes nothing here (it goes into the record, and the day can be made again from that).
 */
export function stepStove(before: StoveState, input: StoveInput): StoveStep {
  const state = { ...before, atMs: Math.max(before.atMs, input.atMs) }
  switch (input.kind) {
    case 'pot':
      return { state: withPot(state, setUp(state, input.potId, input.pot, input.atMs)), happenings: [] }
    case 'pot-gone':
      return removePot(state, input.potId, input.atMs)
    case 'assign':
      return { state: assign(state, input), happenings: [] }
    case 'batch':
      return onPot(state, input.potId, input.atMs, (pot) => stepBatch(pot, input, input.atMs))
    case 'event':
      return onPot(state, input.potId, input.atMs, (pot) => stepEvent(pot, input.event, input.atMs))
    case 'reading': {
      const pot = Object.values(state.pots).find((p) => hangsIn(p, input.reading.probe))
      if (pot === undefined) return { state, happenings: [] }
      return onPot(state, pot.potId, input.atMs, (p) => stepReading(p, input.reading))
    }
    case 'tick':
      return judge(state, input.atMs, (pot) => pot.judgedMs !== input.atMs)
    case 'bridge':
      return { state: noteBridge(state, input.bridge, input.up), happenings: [] }
    default:
      return input satisfies never
  }
}

const NONE: ReadonlySet<AlarmName> = new Set()

const withPot = (state: StoveState, pot: PotState): StoveState => ({
  ...state,
  pots: { ...state.pots, [pot.potId]: pot },
})

const hangsIn = (pot: PotState, probe: string): boolean => pot.probes.some((p) => p.probe === probe)

function setUp(state: StoveState, potId: string, setup: PotSetup, atMs: number): PotState {
  const pot = state.pots[potId]
  if (pot === undefined) return startPot(potId, setup, atMs)
  return { ...pot, setup, probes: pot.probes.map((p) => toldLag(p, setup.lagS)) }
}

/** Something happened in one pot; it is judged at once. */
function onPot(state: StoveState, potId: string, atMs: number, act: (pot: PotState) => PotStep): StoveStep {
  const pot = state.pots[potId]
  if (pot === undefined) return { state, happenings: [] }
  const acted = act(pot)
  const judged = judge(withPot(state, acted.pot), atMs, (p) => p.potId === potId)
  return { state: judged.state, happenings: [...acted.happenings, ...judged.happenings] }
}

/** First what is seen over several pots, then each pot that is asked for. */
function judge(state: StoveState, atMs: number, isAsked: (pot: PotState) => boolean): StoveStep {
  const all = Object.values(state.pots)
  const views = all.map((pot) => viewOf(pot, atMs))
  const isAlone = all.length < 2 && hasNoCauses(state.causes)
  const over = isAlone ? null : stepCauses(state.causes, views, state.settings)
  const happenings: Happening[] = [...(over?.happenings ?? [])]
  const pots: Record<string, PotState> = { ...state.pots }
  for (const view of views) {
    const { pot } = view
    if (!isAsked(pot)) continue
    const judged = stepPot(view, state.settings, over?.inhibited.get(pot.potId) ?? NONE)
    pots[pot.potId] = judged.pot
    happenings.push(...judged.happenings)
  }
  return { state: { ...state, pots, causes: over?.memory ?? state.causes }, happenings }
}

function noteBridge(state: StoveState, bridge: string, up: boolean): StoveState {
  const others = state.causes.bridgesDown.filter((b) => b !== bridge)
  return { ...state, causes: { ...state.causes, bridgesDown: up ? others : [...others, bridge] } }
}

function removePot(state: StoveState, potId: string, atMs: number): StoveStep {
  const { [potId]: gone, ...pots } = state.pots
  const happenings = gone === undefined ? [] : finishStage(gone, atMs).happenings
  return { state: { ...state, pots }, happenings }
}

/** A probe hangs in one pot at a time; where it leaves, the time until the next reading is unknown. */
function assign(state: StoveState, input: Extract<StoveInput, { kind: 'assign' }>): StoveState {
  const { probe, potId, use, atMs } = input
  const stays = use === 'on' && state.pots[potId] !== undefined && hangsIn(state.pots[potId], probe)
  if (stays) return state
  const moved = Object.values(state.pots).some((pot) => hangsIn(pot, probe))
  const pots = Object.values(state.pots).map((pot) => (hangsIn(pot, probe) ? withoutProbe(pot, probe) : pot))
  const freed = Object.fromEntries(pots.map((pot) => [pot.potId, pot]))
  const pot = freed[potId]
  if (use === 'off' || pot === undefined) return { ...state, pots: freed }
  const sense = startSense(probe, atMs, pot.setup.lagS, moved)
  return { ...state, pots: { ...freed, [potId]: { ...pot, probes: [...pot.probes, sense] } } }
}

function withoutProbe(pot: PotState, probe: string): PotState {
  const probes = pot.probes.filter((p) => p.probe !== probe)
  const run = pot.run !== null && probes.length === 0 ? noteAway(pot.run) : pot.run
  return { ...pot, probes, run }
}

/** The live numbers of a pot. Throws for a pot that isn't on the stove. */
export const potNumbers = (state: StoveState, potId: string, atMs: number): PotNumbers =>
  numbersOf(potOf(state, potId), atMs)

/** What comes in a pot if nobody touches it, with the band for a chart; `null`: nothing can be said. */
export const potForecast = (state: StoveState, potId: string, atMs: number): PotForecast | null =>
  forecastOf(viewOf(potOf(state, potId), atMs))

/** Whether the bath of a cool-down can be lifted when the dyer's alarm clock rings; `null`: there is none to lift. */
export const potLiftTime = (state: StoveState, potId: string, atMs: number, wake: Wake): LiftTime | null =>
  liftTimeOf(viewOf(potOf(state, potId), atMs), wake)

/** What the stages of the batch on a pot have come to, in the order in which they began, up to a moment. */
export function stageOutcomes(state: StoveState, potId: string, atMs = state.atMs): readonly StageOutcome[] {
  const { ended, run } = potOf(state, potId)
  return [...ended, ...(run === null ? [] : [run])].map((r) => outcomeOf(r, atMs))
}

function potOf(state: StoveState, potId: string): PotState {
  const pot = state.pots[potId]
  if (pot === undefined) throw new Error(`no pot "${potId}" on the stove`)
  return pot
}

/** The cool-downs of the batch on a pot, in the order in which they began; fitted up to now. */
export const coolingOutcomes = (state: StoveState, potId: string): readonly CoolingOutcome[] =>
  coolingOutcomesOf(potOf(state, potId), state.atMs)

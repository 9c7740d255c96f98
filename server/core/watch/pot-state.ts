import type { AlarmName } from '../plan/alarm-names.ts'
import type { Plan } from '../plan/plan.ts'
import { type Course, startCourse } from './course.ts'
import type { ProbeSense } from './probe-sense.ts'
import type { StageRun } from './stage-run.ts'
import { type StageNotes, NO_NOTES } from './stage-notes.ts'
import type { Standing } from './standing.ts'
import type { PotSetup } from './stove-input.ts'

/** All that the watch knows of one pot. Plain data, never changed in place. */
export interface PotState {
  readonly potId: string
  /** When it was last judged: a tick at the same moment has nothing to add. */
  readonly judgedMs: number | null
  readonly setup: PotSetup
  readonly batchId: number | null
  readonly plan: Plan | null
  readonly dial: DialNote | null
  readonly lid: 'on' | 'off' | null
  readonly lidMs: number | null
  readonly goods: Goods
  /** Probes that hang in it, the one that governs first. */
  readonly probes: readonly ProbeSense[]
  readonly course: Course
  readonly run: StageRun | null
  readonly ended: readonly StageRun[]
  readonly notes: StageNotes
  /** Alarms that are not quiet. */
  readonly alarms: Readonly<Partial<Record<AlarmName, AlarmState>>>
}

export interface DialNote {
  readonly dial: number
  readonly notedMs: number
  /** When it was last turned up; `null`: it has been turned down since, or was never. */
  readonly raisedMs: number | null
  /** Since when it has been above 0 without a break; `null` while it is off. */
  readonly onSinceMs: number | null
}

/** `taken-in`: nobody has said a word about the goods; they are taken to be in. */
export interface Goods {
  readonly kind: 'taken-in' | 'in' | 'out'
  /** When they went in, where that was said. */
  readonly inMs: number | null
}

export interface AlarmState {
  readonly standing: Standing
  readonly limitC: number | null
  readonly peakC: number | null
}

export const startPot = (potId: string, setup: PotSetup, atMs: number): PotState => ({
  potId,
  judgedMs: null,
  setup,
  batchId: null,
  plan: null,
  dial: null,
  lid: null,
  lidMs: null,
  goods: { kind: 'taken-in', inMs: null },
  probes: [],
  course: startCourse(atMs),
  run: null,
  ended: [],
  notes: NO_NOTES,
  alarms: {},
})

export const goodsIn = (pot: PotState): boolean => pot.goods.kind !== 'out'

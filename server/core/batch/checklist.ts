import type { Plan, Stage } from '../plan/plan.ts'
import { holdTask } from './hold-task.ts'
import { isGoodsIn, sinceGoodsInMs } from './goods-state.ts'
import type { NotedEvent, StageProgress, Task } from './progress.ts'
import { type StageState, stageStates } from './stage-states.ts'

export interface Checklist {
  readonly stages: readonly { readonly stage: Stage; readonly state: StageState }[]
  readonly task: Task
  /** The stage the task belongs to; `null` when all is done. */
  readonly stage: Stage | null
  /** When the task will be done if all goes on as now, Unix ms; `null` when it can't be told. */
  readonly untilMs: number | null
  readonly next: Stage | null
  /** When the goods have to be turned next; `null` without a reminder. In the past: overdue. */
  readonly turnDueMs: number | null
  /** When the goods have to be out; `null` when it doesn't matter. */
  readonly outByMs: number | null
}

/**
 * What now, how long yet, what next. `coolsToMs`: when the running cool-down is expected to end, from the watch;
 * `null` when unknown. Events in any order; those after `nowMs` are left out.
 */
export function checklist(batch: {
  readonly plan: Plan
  readonly runs: readonly StageProgress[]
  readonly events: readonly NotedEvent[]
  readonly nowMs: number
  readonly coolsToMs: number | null
}): Checklist {
  const { plan, runs, nowMs } = batch
  const events = batch.events.filter((e) => e.atMs <= nowMs).sort((a, b) => a.atMs - b.atMs)
  const states = stageStates(
    plan.stages.map(({ id }) => id),
    runs,
  )
  const stages = plan.stages.map((stage, i) => ({ stage, state: states[i]! }))
  const running = runs.findLast((run) => run.endedMs === null)
  const index =
    running === undefined ? nextIndex(stages) : plan.stages.findIndex((s) => s.id === running.stageId)
  const stage = plan.stages[index] ?? null
  const next = plan.stages[index + 1] ?? null
  if (stage === null) return { ...NOTHING, stages, task: 'finished', stage, next: null }
  if (running === undefined) return { ...NOTHING, stages, task: 'start', stage, next }
  return { stages, stage, next, ...taskOf(stage, running, events, batch) }
}

const NOTHING = { untilMs: null, turnDueMs: null, outByMs: null } as const

/** The stage after the last one done: a stage that was left out isn't asked for again. */
const nextIndex = (stages: Checklist['stages']): number => stages.findLastIndex((s) => s.state === 'done') + 1

type NowPart = Pick<Checklist, 'task' | 'untilMs' | 'turnDueMs' | 'outByMs'>

const MIN_MS = 60_000

function taskOf(
  stage: Stage,
  run: StageProgress,
  events: readonly NotedEvent[],
  now: { readonly nowMs: number; readonly coolsToMs: number | null },
): NowPart {
  const outByMs = outBy(stage, run, events)
  switch (stage.kind) {
    case 'hold':
      return { ...holdTask(stage, run, events, now.nowMs), outByMs }
    case 'cool':
      return { task: 'cool', untilMs: now.coolsToMs, turnDueMs: null, outByMs }
    case 'soak':
    case 'rest':
      return { ...NOTHING, task: stage.kind, untilMs: run.startedMs + stage.minutes * MIN_MS }
    case 'keep-warm': {
      const untilMs = stage.minutes === undefined ? null : run.startedMs + stage.minutes * MIN_MS
      return { ...NOTHING, task: 'keep-warm', untilMs }
    }
    default:
      return stage satisfies never
  }
}

function outBy(stage: Stage, run: StageProgress, events: readonly NotedEvent[]): number | null {
  const outByMin = 'outByMin' in stage ? stage.outByMin : undefined
  if (outByMin === undefined || !isGoodsIn(events)) return null
  return (sinceGoodsInMs(events) ?? run.startedMs) + outByMin * MIN_MS
}

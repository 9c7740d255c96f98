import type { HoldStage } from '../plan/plan.ts'
import type { NotedEvent, StageProgress, Task } from './progress.ts'
import { isGoodsIn, sinceGoodsInMs } from './goods-state.ts'

/** What to do in a hold: goods in, heat, hold, done; and when the goods have to be turned. */
export function holdTask(
  stage: HoldStage,
  run: StageProgress,
  events: readonly NotedEvent[],
  nowMs: number,
): { readonly task: Task; readonly untilMs: number | null; readonly turnDueMs: number | null } {
  const goodsIn = !stage.goods || isGoodsIn(events)
  const turnDueMs = stage.goods && goodsIn ? turnDue(stage, run, events) : null
  if (run.bins === null) return { task: goodsIn ? 'heat' : 'goods-in', untilMs: null, turnDueMs }
  const leftS = run.bins.requiredS - run.bins.inWindowS
  if (leftS <= 0) return { task: 'hold-done', untilMs: null, turnDueMs }
  if (!goodsIn) return { task: 'goods-in', untilMs: null, turnDueMs }
  return { task: 'hold', untilMs: nowMs + leftS * 1000, turnDueMs }
}

/** Counted from the last turn in this stage, else from goods-in, else from the stage's start. */
function turnDue(stage: HoldStage, run: StageProgress, events: readonly NotedEvent[]): number | null {
  if (stage.turnEveryMin === undefined) return null
  const turned = events.findLast(({ event, atMs }) => event.kind === 'stir' && atMs >= run.startedMs)
  const fromMs = Math.max(turned?.atMs ?? 0, sinceGoodsInMs(events) ?? 0, run.startedMs)
  return fromMs + stage.turnEveryMin * 60_000
}

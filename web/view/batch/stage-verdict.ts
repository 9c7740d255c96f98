import { holdSentence } from '#core/words/hold-sentence'
import type { Stage } from '#core/plan/plan'
import type { StageRun } from '#core/wire/records'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** What a stage came to, in one honest breath. */
export function stageVerdict(stage: Stage, run: StageRun, w: Catalogue, f: Format): string {
  const running = run.endedMs === null ? [w.batch.runningNow] : []
  switch (stage.kind) {
    case 'hold':
      return [...holdParts(stage, run, w, f), ...running].join(' ')
    case 'cool':
      return [coolPart(stage.coolToC, run, w, f), ...running].join(' ')
    case 'soak':
    case 'rest':
    case 'keep-warm':
      return [lengthPart(run, w, f), ...running].join(' ')
    default:
      return stage satisfies never
  }
}

function holdParts(
  stage: Extract<Stage, { kind: 'hold' }>,
  run: StageRun,
  w: Catalogue,
  f: Format,
): readonly string[] {
  const { outcome } = run
  if (outcome === null || outcome.bins === null) return [w.batch.holdNever]
  const { bins, minC, maxC, doneMs } = outcome
  const required = f.minutes(bins.requiredS)
  const missingS = bins.requiredS - bins.inWindowS
  const missing = f.span(missingS * 1000)
  const full =
    doneMs !== null
      ? w.batch.holdDoneAt(required, f.clock(doneMs))
      : run.endedMs === null
        ? w.batch.holdToGo(required, missing)
        : w.batch.holdShort(required, missing)
  return [holdSentence(bins, { minC, maxC, windowC: stage.windowC }, f.person), full]
}

/** Less than the last shown digit can tell, °C. */
const SHOWN_AS_SAME_C = 0.05

function coolPart(coolToC: number, { outcome }: StageRun, w: Catalogue, f: Format): string {
  if (outcome === null) return ''
  const goal = f.temp(coolToC)
  if (outcome.doneMs !== null) return w.batch.coolDoneAt(goal, f.day(outcome.doneMs))
  if (outcome.minC !== null && outcome.minC <= coolToC + SHOWN_AS_SAME_C) return w.batch.coolDone(goal)
  return outcome.minC === null ? w.batch.noReadings : w.batch.coolNot(goal, f.temp(outcome.minC))
}

const lengthPart = (run: StageRun, w: Catalogue, f: Format): string =>
  run.endedMs === null ? '' : w.batch.lasted(f.span(run.endedMs - run.startedMs))

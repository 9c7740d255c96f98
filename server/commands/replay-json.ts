import { type AlarmSpan, noteSpan } from '#core/watch/alarm-spans'
import { type ReplaySetup, REPLAY_POT, replayDay } from '#core/watch/replay-day'
import { type StoveState, coolingOutcomes, stageOutcomes } from '#core/watch/stove'
import type { Trace } from '#core/watch/trace-moment'
import { forecastLine } from '#core/wire/forecast-line'
import { happeningLine, summaryLine } from '#core/wire/replay-lines'

const FORECAST_EVERY_MS = 5 * 60_000

/** One JSON object a line, the same to the byte for the same files. */
export function replayAsJson(
  trace: Trace,
  setup: ReplaySetup,
  forecasts: boolean,
  write: (text: string) => void,
): void {
  const lines: string[] = []
  let spans: readonly AlarmSpan[] = []
  let forecastMs = 0
  const end = replayDay(
    trace,
    setup,
    (happening) => {
      lines.push(JSON.stringify(happeningLine(happening)))
      if (happening.kind === 'alarm') spans = noteSpan(spans, happening)
    },
    (atMs, state) => {
      if (!forecasts || atMs < forecastMs) return
      forecastMs = atMs + FORECAST_EVERY_MS
      const line = forecastLine(state, REPLAY_POT, atMs)
      if (line !== null) lines.push(JSON.stringify(line))
    },
  )
  const counts = {
    used: end.used,
    rejected: trace.rejected + end.disbelieved,
    duplicates: trace.duplicates,
  }
  const standing = spans.map((span) => withPeak(span, end.state))
  const stages = stageOutcomes(end.state, REPLAY_POT, end.endMs)
  lines.push(JSON.stringify(summaryLine(stages, standing, coolingOutcomes(end.state, REPLAY_POT), counts)))
  write(`${lines.join('\n')}\n`)
}

/** An alarm that stands at the end of the trace has gone on since it was last told of. */
function withPeak(span: AlarmSpan, state: StoveState): AlarmSpan {
  const now = state.pots[REPLAY_POT]?.alarms[span.alarm]
  return span.clearedMs === null && now !== undefined ? { ...span, peakC: now.peakC } : span
}

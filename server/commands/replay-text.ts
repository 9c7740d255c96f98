import { type AlarmSpan, noteSpan } from '#core/watch/alarm-spans'
import { type ReplayEnd, type ReplaySetup, REPLAY_POT, replayDay } from '#core/watch/replay-day'
import type { CoolingOutcome } from '#core/watch/cooling-outcome'
import type { Plan } from '#core/plan/plan'
import { type StoveState, coolingOutcomes, potNumbers, stageOutcomes } from '#core/watch/stove'
import type { Trace } from '#core/watch/trace-moment'
import { alarmText } from '#core/words/alarm-text'
import { holdSentence } from '#core/words/hold-sentence'
import { noticeText } from '#core/words/notice-text'
import { tempText } from '#core/words/numbers'
import type { Person } from '#core/words/person'
import { iso } from '#core/wire/replay-lines'

/** Often enough to read how the forecast came to be, seldom enough to read at all. */
const FORECAST_EVERY_MS = 30 * 60_000

const READER: Person = { unit: 'C', zone: 'UTC', language: 'en' }

/** The same replay for a person to read; times in UTC, so that it says the same everywhere. */
export function replayAsText(
  trace: Trace,
  setup: ReplaySetup,
  forecasts: boolean,
  write: (text: string) => void,
): void {
  const names = {
    pots: { [REPLAY_POT]: setup.vessel?.title ?? 'Bath' },
    stages: Object.fromEntries(setup.plan.stages.map((s) => [s.id, s.title])),
  }
  const lines: string[] = [`${setup.plan.title}. All times are UTC.`]
  let spans: readonly AlarmSpan[] = []
  let forecastMs = 0
  const end = replayDay(
    trace,
    setup,
    (h) => {
      const text = h.kind === 'notice' ? noticeText(h, names, READER) : alarmText(h, names, READER)
      lines.push(`${stamp(h.atMs)}  ${h.kind === 'alarm' ? '! ' : '  '}${text}`)
      if (h.kind === 'alarm') spans = noteSpan(spans, h)
    },
    (atMs, state) => {
      if (!forecasts || atMs < forecastMs) return
      forecastMs = atMs + FORECAST_EVERY_MS
      const text = forecastText(state, atMs)
      if (text !== null) lines.push(`${stamp(atMs)}  ~ ${text}`)
    },
  )
  lines.push('', ...closing(end, setup, trace, spans.length))
  write(`${lines.join('\n')}\n`)
}

/** What the stages came to, and what became of the readings. */
function closing(end: ReplayEnd, { plan }: ReplaySetup, trace: Trace, alarms: number): readonly string[] {
  const holds = stageOutcomes(end.state, REPLAY_POT, end.endMs).flatMap((outcome) => {
    const stage = plan.stages.find((s) => s.id === outcome.id)
    if (stage?.kind !== 'hold' || outcome.bins === null) return []
    const extremes = { ...outcome, windowC: stage.windowC }
    return [`${stage.title}: ${holdSentence(outcome.bins, extremes, READER)}`]
  })
  const rejected = trace.rejected + end.disbelieved
  const readings = `${end.used} readings used, ${rejected} rejected, ${trace.duplicates} duplicates`
  return [
    ...holds,
    ...coolingOutcomes(end.state, REPLAY_POT).map((c) => coolingText(c, titleOf(plan, c.stageId))),
    `${readings}; ${alarms} ${alarms === 1 ? 'alarm' : 'alarms'}.`,
  ]
}

const stamp = (atMs: number): string => iso(atMs).slice(0, 19).replace('T', ' ')

/** What was to come, in the words of the moment; `null`: nothing was in sight. */
function forecastText(state: StoveState, atMs: number): string | null {
  const forecast = potNumbers(state, REPLAY_POT, atMs).forecast
  const { reachesCoolToMs, reachesWindowMs } = forecast ?? { reachesCoolToMs: null, reachesWindowMs: null }
  if (reachesCoolToMs !== null && reachesCoolToMs > atMs)
    return `cool enough at about ${stamp(reachesCoolToMs).slice(0, 16)}`
  if (reachesWindowMs !== null && reachesWindowMs > atMs)
    return `in the window at about ${stamp(reachesWindowMs).slice(0, 16)}`
  return null
}

const titleOf = (plan: Plan, stageId: string): string =>
  plan.stages.find((stage) => stage.id === stageId)?.title ?? stageId

function coolingText(c: CoolingOutcome, title: string): string {
  const target = tempText(c.coolToC, READER)
  const reached =
    c.reachedMs === null
      ? `not at ${target} by the end`
      : `at ${target} at ${iso(c.reachedMs).slice(0, 16).replace('T', ' ')}`
  const curve = c.fittedTauMin === null ? '' : `, time constant ${Math.round(c.fittedTauMin)} min`
  return `${title}: ${reached}${curve}.`
}

import { type AlarmSpan, noteSpan } from '#core/watch/alarm-spans'
import { type ReplaySetup, REPLAY_POT, replayDay } from '#core/watch/replay-day'
import type { CoolingOutcome } from '#core/watch/cooling-outcome'
import { coolingOutcomes, stageOutcomes } from '#core/watch/stove'
import type { Trace } from '#core/watch/trace-moment'
import { alarmText } from '#core/words/alarm-text'
import { holdSentence } from '#core/words/hold-sentence'
import { noticeText } from '#core/words/notice-text'
import { tempText } from '#core/words/numbers'
import type { Person } from '#core/words/person'
import { iso } from '#core/wire/replay-lines'

const READER: Person = { unit: 'C', zone: 'UTC', language: 'en' }

/** The same replay for a person to read; times in UTC, so that it says the same everywhere. */
export function replayAsText(
  trace: Trace,
  setup: ReplaySetup,
  _forecasts: boolean,
  write: (text: string) => void,
): void {
  const names = {
    pots: { [REPLAY_POT]: setup.vessel?.title ?? 'Bath' },
    stages: Object.fromEntries(setup.plan.stages.map((s) => [s.id, s.title])),
  }
  const lines: string[] = [`${setup.plan.title}. All times are UTC.`]
  let spans: readonly AlarmSpan[] = []
  const end = replayDay(trace, setup, (h) => {
    const text = h.kind === 'notice' ? noticeText(h, names, READER) : alarmText(h, names, READER)
    lines.push(`${iso(h.atMs).slice(0, 19).replace('T', ' ')}  ${h.kind === 'alarm' ? '! ' : '  '}${text}`)
    if (h.kind === 'alarm') spans = noteSpan(spans, h)
  })
  lines.push('')
  for (const outcome of stageOutcomes(end.state, REPLAY_POT, end.endMs)) {
    const stage = setup.plan.stages.find((s) => s.id === outcome.id)
    if (stage?.kind !== 'hold' || outcome.bins === null) continue
    lines.push(
      `${stage.title}: ${holdSentence(outcome.bins, { ...outcome, windowC: stage.windowC }, READER)}`,
    )
  }
  lines.push(...coolingOutcomes(end.state, REPLAY_POT).map(coolingText))
  const rejected = trace.rejected + end.disbelieved
  lines.push(
    `${end.used} readings used, ${rejected} rejected, ${trace.duplicates} duplicates; ${spans.length} alarms.`,
  )
  write(`${lines.join('\n')}\n`)
}

function coolingText(c: CoolingOutcome): string {
  const target = tempText(c.coolToC, READER)
  const reached =
    c.reachedMs === null
      ? `not at ${target} by the end`
      : `at ${target} at ${iso(c.reachedMs).slice(0, 16).replace('T', ' ')}`
  const curve = c.fittedTauMin === null ? '' : `, time constant ${Math.round(c.fittedTauMin)} min`
  return `${c.stageId}: ${reached}${curve}.`
}

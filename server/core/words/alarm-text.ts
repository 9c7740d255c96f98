import type { AlarmHappening } from '../watch/happening.ts'
import type { AlarmParts } from './catalogue.ts'
import { type ActedAt, alarmAct } from './alarm-act.ts'
import { type Names, potName } from './names.ts'
import { clockText, lengthText, numberText, rateNumber, tempNumber, tempText } from './numbers.ts'
import type { Person } from './person.ts'
import { wordsOf } from './words-of.ts'

/** Below this a bath stands still in a sentence, °C/min. */
const STILL_C_PER_MIN = 0.05

/**
 * An alarm in one breath: the pot, the fact with its number, the limit, since when, the likely reason as a
 * question, what to do. `at`: the pot as it stands, so that the act can name the mark it has taught.
 */
export function alarmText(
  happening: AlarmHappening,
  names: Names,
  person: Person,
  at: ActedAt | null = null,
): string {
  const words = wordsOf(person.language)
  const parts = alarmParts(happening, names, person)
  const { alarm, reason } = happening
  if (happening.change === 'cleared') return words.cleared(words.alarmNames[alarm], parts)
  const question = reason === null ? [] : [words.reasons[reason]]
  return [words.alarms[alarm](parts), ...question, alarmAct(alarm, at, person)].join(' ')
}

function alarmParts(h: AlarmHappening, names: Names, person: Person): AlarmParts {
  const temp = (tempC: number | null) => (tempC === null ? null : tempText(tempC, person))
  const moving = h.rateCPerMin !== null && Math.abs(h.rateCPerMin) >= STILL_C_PER_MIN
  return {
    pot: potName(h.potId, names),
    pots: h.potIds.map((id) => names.pots[id] ?? id).join(', '),
    each: h.potIds.map((id, i) => ({ name: names.pots[id] ?? id, temp: temp(h.potTempsC?.[i] ?? null) })),
    temp: temp(h.tempC),
    limit: h.limitC === null ? null : tempNumber(h.limitC, person),
    rate: moving ? rateNumber(h.rateCPerMin ?? 0, person) : null,
    isRising: (h.rateCPerMin ?? 0) > 0,
    since: clockText(h.sinceMs, person),
    lasted: lastedText(h.atMs - h.sinceMs, person),
    expected: h.expectedMs === null ? null : clockText(h.expectedMs, person),
    peak: temp(h.peakC),
    dial: h.dial === null ? null : numberText(h.dial, person),
    lastAt: h.lastReadingMs === null ? null : clockText(h.lastReadingMs, person),
  }
}

/** Whoever is called wants no seconds counted: from three quarters of a minute it is about one. */
function lastedText(lengthMs: number, person: Person): string {
  return lengthMs >= 45_000 && lengthMs < 90_000
    ? wordsOf(person.language).aboutAMinute
    : lengthText(lengthMs)
}

import type { StageOutcome } from '../plan/outcome.ts'
import type { AlarmSpan } from '../watch/alarm-spans.ts'
import type { AlarmHappening, Happening, NoticeHappening } from '../watch/happening.ts'
import type { CoolingOutcome } from '../watch/cooling-outcome.ts'

export interface ReplayCounts {
  readonly used: number
  readonly rejected: number
  readonly duplicates: number
}

/** ISO 8601 with milliseconds and `Z`, as all files have it. */
export const iso = (atMs: number): string => new Date(atMs).toISOString()

const isoOrNull = (atMs: number | null | undefined): string | null =>
  atMs === null || atMs === undefined ? null : iso(Math.round(atMs))

/** Thousandths: finer than any probe, and free of the noise of binary fractions. */
const thousandths = (value: number | null): number | null =>
  value === null ? null : Math.round(value * 1000) / 1000

/** One happening as an object of the replay's output. */
export const happeningLine = (h: Happening): object => (h.kind === 'notice' ? noticeLine(h) : alarmLine(h))

function noticeLine(h: NoticeHappening): object {
  return {
    kind: 'notice',
    notice: h.notice,
    at: iso(h.atMs),
    stage: h.stageId,
    tempC: thousandths(h.tempC),
    ...(h.sinceMs === undefined ? {} : { sinceAt: iso(Math.round(h.sinceMs)) }),
    ...(h.dueMs === undefined ? {} : { dueAt: iso(Math.round(h.dueMs)) }),
    ...(h.turn === undefined ? {} : { ...h.turn, peakC: thousandths(h.turn.peakC) }),
  }
}

function alarmLine(h: AlarmHappening): object {
  // Who counts raisings against clearings must not meet a third word, so growing urgent is a line of its own.
  const head = h.change === 'escalated' ? { kind: 'escalation' } : { kind: 'alarm' }
  const change = h.change === 'escalated' ? {} : { change: h.change }
  return {
    ...head,
    alarm: h.alarm,
    ...change,
    at: iso(h.atMs),
    sinceAt: iso(h.sinceMs),
    stage: h.stageId,
    tempC: thousandths(h.tempC),
    limitC: thousandths(h.limitC),
    urgency: h.urgency,
    rateCPerMin: thousandths(h.rateCPerMin),
    peakC: thousandths(h.peakC),
    expectedAt: isoOrNull(h.expectedMs),
    lastReadingAt: isoOrNull(h.lastReadingMs),
    dial: h.dial,
    reason: h.reason,
  }
}

/** The last object of the replay's output. */
export function summaryLine(
  stages: readonly StageOutcome[],
  alarms: readonly AlarmSpan[],
  cooling: readonly CoolingOutcome[],
  readings: ReplayCounts,
): object {
  return {
    kind: 'summary',
    stages: stages.map(stageLine),
    alarms: alarms.map((a) => ({
      alarm: a.alarm,
      stage: a.stageId,
      sinceAt: iso(a.sinceMs),
      raisedAt: iso(a.raisedMs),
      clearedAt: isoOrNull(a.clearedMs),
      peakC: thousandths(a.peakC),
    })),
    cooling: cooling.map((c) => ({
      stage: c.stageId,
      fittedTauMin: thousandths(c.fittedTauMin),
      surroundingsC: thousandths(c.surroundingsC),
      reachedAt: isoOrNull(c.reachedMs),
    })),
    readings,
  }
}

function stageLine(s: StageOutcome): object {
  return {
    id: s.id,
    startedAt: iso(s.startedMs),
    endedAt: iso(s.endedMs),
    requiredS: s.bins?.requiredS ?? null,
    inWindowS: s.bins?.inWindowS ?? null,
    aboveWindowS: s.bins?.aboveWindowS ?? null,
    belowWindowS: s.bins?.belowWindowS ?? null,
    aboveCeilingS: s.bins?.aboveCeilingS ?? null,
    unknownS: s.bins?.unknownS ?? null,
    goodsOutS: s.bins?.goodsOutS ?? null,
    minC: thousandths(s.minC),
    maxC: thousandths(s.maxC),
    doneAt: isoOrNull(s.doneMs),
  }
}

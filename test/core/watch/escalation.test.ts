import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type AlarmDesk, type DeskInput, emptyDesk, stepDesk } from '#core/watch/alarm-desk'
import { callsFor, noCalls, stepEscalation } from '#core/watch/escalation'
import { type CallEffect, ESCALATION_DEFAULTS } from '#core/watch/escalation-call'
import type { Escalation, EscalationInput } from '#core/watch/escalation-input'
import type { AlarmHappening } from '#core/watch/happening'
import { ALARM_DAY_MS, alarmHappening } from '../../kit/alarm-happening.ts'

const CEILING = { alarm: 'above-ceiling', urgency: 'at-once' } as const

/** A desk and its calls, moved second by second. `told`: `second: means loudness #attempt`. */
class Day {
  desk: AlarmDesk = emptyDesk
  calls: Escalation = noCalls
  listeners = 1
  messageId = 0
  nowS = 0
  readonly told: string[] = []

  put(input: DeskInput) {
    const step = stepDesk(this.desk, input)
    this.desk = step.desk
    for (const { entry, atMs } of step.changes) {
      const alarm = { alarmId: entry.alarmId, urgency: entry.urgency, state: entry.life.kind }
      const messageId = ++this.messageId
      this.take({ kind: 'alarm', alarm, atMs, messageId, listeners: this.listeners })
    }
  }
  take(input: EscalationInput) {
    const step = stepEscalation(this.calls, input, ESCALATION_DEFAULTS)
    this.calls = step.state
    this.told.push(...step.effects.map((e) => `${this.nowS}: ${worded(e)}`))
  }
  happen(more: Partial<AlarmHappening>) {
    this.put({ kind: 'happening', happening: alarmHappening(0, { atMs: this.atMs, ...more }), late: false })
  }
  act(kind: 'acknowledge' | 'shelve') {
    this.put({ kind: 'act', alarmId: 1, act: { kind, atMs: this.atMs, who: null, minutes: 5 } })
  }
  seen(sound: boolean) {
    this.take({ kind: 'seen', messageId: this.messageId, sound, atMs: this.atMs })
  }
  wait(seconds: number) {
    for (let i = 0; i < seconds; i++) {
      this.nowS += 1
      this.take({ kind: 'tick', atMs: this.atMs })
    }
  }
  get atMs() {
    return ALARM_DAY_MS + this.nowS * 1000
  }
}

const worded = (e: CallEffect) =>
  e.kind === 'hush' ? 'hush' : `${e.means.join('+')} ${e.loudness} #${e.attempt}`

test('at once, received by nobody: the next means after 10 s, everything loud after 60 s, then each minute', () => {
  const day = new Day()
  day.happen(CEILING)
  day.wait(200)
  expect(day.told).toEqual([
    '0: page repeat #1',
    '10: page+push repeat #2',
    '60: page+push+lamp+webhook loud #3',
    '120: page+push+lamp+webhook loud #4',
    '180: page+push+lamp+webhook loud #5',
  ])
})

test('received with sound but answered by nobody: everything after 60 s', () => {
  const day = new Day()
  day.happen(CEILING)
  day.wait(4)
  day.seen(true)
  day.wait(60)
  expect(day.told).toEqual(['0: page repeat #1', '60: page+push+lamp+webhook loud #2'])
})

test('seen by a page whose sound is off is not received', () => {
  const day = new Day()
  day.happen(CEILING)
  day.wait(4)
  day.seen(false)
  day.wait(6)
  expect(day.told.at(-1)).toBe('10: page+push repeat #2')
})

test('a page that has seen only what came before has not received it', () => {
  const day = new Day()
  day.happen(CEILING)
  day.take({ kind: 'seen', messageId: 0, sound: true, atMs: day.atMs })
  day.wait(10)
  expect(day.told).toHaveLength(2)
})

test('with no device that would sound, the next means is called without waiting', () => {
  const day = new Day()
  day.listeners = 0
  day.happen(CEILING)
  expect(day.told).toEqual(['0: page+push repeat #1'])
})

test.each([
  ['somebody acknowledges', (day: Day) => day.act('acknowledge')],
  ['the bath comes back by itself', (day: Day) => day.happen({ ...CEILING, change: 'cleared' })],
])('it falls silent when %s, for good', (_, answer) => {
  const day = new Day()
  day.happen(CEILING)
  day.wait(70)
  answer(day)
  day.wait(300)
  expect(day.told.at(-1)).toBe('70: hush')
})

test('a shelf silences a soon alarm', () => {
  const day = new Day()
  day.happen({})
  day.act('shelve')
  day.wait(200)
  expect(day.told).toEqual(['0: page tone #1', '0: hush'])
})

test('soon: one tone, a phone when no page had it, one reminder after ten minutes, never loud', () => {
  const day = new Day()
  day.happen({})
  day.wait(3600)
  expect(day.told).toEqual(['0: page tone #1', '10: page+push tone #2', '600: page+push tone #3'])
})

test('an acknowledged alarm that worsens to at once begins anew', () => {
  const day = new Day()
  day.happen({ alarm: 'probe-silent' })
  day.act('acknowledge')
  day.wait(120)
  day.happen({ alarm: 'probe-silent', urgency: 'at-once' })
  day.wait(60)
  expect(day.told.slice(-3)).toEqual([
    '120: page repeat #1',
    '130: page+push repeat #2',
    '180: page+push+lamp+webhook loud #3',
  ])
})

test('a notice makes one tone and goes to a phone once when no page had it', () => {
  const day = new Day()
  day.take({ kind: 'notice', noticeId: 9, urgency: 'soon', atMs: day.atMs, listeners: 1 })
  day.wait(700)
  expect(day.told).toEqual(['0: page tone #1', '10: page+push tone #2'])
  expect(day.calls).toEqual(noCalls)
})

test('after a restart an alarm that nobody answered is called by everything at the first tick', () => {
  const day = new Day()
  day.happen(CEILING)
  const [entry] = day.desk.entries
  const alarm = { alarmId: 1, urgency: entry!.urgency, state: entry!.life.kind, sinceMs: entry!.raisedMs }
  day.calls = callsFor([alarm], day.messageId)
  day.nowS = 90
  day.wait(1)
  expect(day.told.at(-1)).toBe('91: page+push+lamp+webhook loud #2')
})

test('what is for the morning or the log makes no sound, and what is at once is loud within 60 s or answered', () => {
  const urgency = fc.constantFrom('at-once' as const, 'soon' as const, 'morning' as const, 'log' as const)
  const doing = fc.constantFrom('acknowledge' as const, 'clear' as const, 'seen' as const, 'nothing' as const)
  fc.assert(
    fc.property(urgency, doing, fc.integer({ min: 0, max: 80 }), fc.nat(2), (u, does, afterS, listeners) => {
      const day = new Day()
      day.listeners = listeners
      day.happen({ alarm: 'no-heat', urgency: u })
      day.wait(afterS)
      if (does === 'acknowledge') day.act('acknowledge')
      if (does === 'clear') day.happen({ alarm: 'no-heat', urgency: u, change: 'cleared' })
      if (does === 'seen') day.seen(true)
      day.wait(120 - afterS)
      const loudAt = day.told.filter((t) => t.includes('loud')).map((t) => Number(t.split(':')[0]))
      const isAnswered = does === 'acknowledge' || does === 'clear'
      expect(day.told.length > 0).toBe(u === 'at-once' || u === 'soon')
      const isLoud = u === 'at-once' && !(isAnswered && afterS < 60)
      expect(loudAt[0]).toBe(isLoud ? 60 : undefined)
    }),
  )
})

import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { AlarmLifeState, AlarmMessage } from '#core/wire/live'
import { asksOf, isUnanswered, potsAsking, pressingUrgency } from '../../../web/state/open-alarms.ts'
import { alarmOf } from '../made-up.ts'

const alarm = (id: number, change: Partial<AlarmMessage> = {}) =>
  alarmOf(id, { alarmId: id, urgency: 'soon', ...change })
const ids = (alarms: readonly AlarmMessage[]) => alarms.map((a) => a.alarmId)

test('a bath that drifts off asks once: at once before soon, the rest folded behind it', () => {
  const drift = [
    alarm(1, { alarm: 'heading-above-window' }),
    alarm(2, { alarm: 'above-window' }),
    alarm(3, { alarm: 'heading-above-ceiling', urgency: 'at-once' }),
    alarm(4, { alarm: 'heating-too-fast' }),
  ]
  const asks = asksOf(drift, 'heron')
  expect(asks?.first.alarm).toBe('heading-above-ceiling')
  expect(ids(asks?.others ?? [])).toEqual([4, 2, 1])
  expect(ids(asks?.unanswered ?? [])).toEqual([3, 4, 2, 1])
})

test('what stands comes before what went back by itself, the newest first', () => {
  const alarms = [
    alarm(9, { state: 'returned-unacknowledged' }),
    alarm(5),
    alarm(7),
    alarm(8, { state: 'returned-unacknowledged' }),
  ]
  const asks = asksOf(alarms, 'heron')
  expect([asks?.first.alarmId, ...ids(asks?.others ?? [])]).toEqual([7, 5, 9, 8])
})

test('an at-once alarm comes before a newer soon one, even when it went back', () => {
  const back = alarm(1, { urgency: 'at-once', state: 'returned-unacknowledged' })
  expect(asksOf([back, alarm(2)], 'heron')?.first).toEqual(back)
})

test('what nobody has answered comes before what somebody has; only the former is answered', () => {
  const answered = alarm(4, { urgency: 'at-once', state: 'acknowledged' })
  const asks = asksOf([answered, alarm(3)], 'heron')
  expect(asks?.first.alarmId).toBe(3)
  expect(ids(asks?.unanswered ?? [])).toEqual([3])
})

test('what is only noted asks for nobody; a shelved alarm gives a card no colour', () => {
  expect(asksOf([alarm(1, { urgency: 'log' })], 'heron')).toBeNull()
  expect(pressingUrgency(asksOf([alarm(1, { state: 'shelved' })], 'heron'))).toBeNull()
  expect(pressingUrgency(asksOf([alarm(1, { state: 'acknowledged' })], 'heron'))).toBe('soon')
  expect(pressingUrgency(null)).toBeNull()
})

test('pots stand by their most pressing alarm', () => {
  const alarms = [
    alarm(1, { pot: 'wren' }),
    alarm(2, { pot: 'otter', urgency: 'at-once' }),
    alarm(3, { pot: 'heron' }),
    alarm(4, { pot: 'otter' }),
  ]
  expect(potsAsking(alarms).map((p) => p.potId)).toEqual(['otter', 'heron', 'wren'])
  expect(potsAsking([])).toEqual([])
})

test('of any alarms each that asks stands at its pot once, and none presses more than the first', () => {
  const states = ['unacknowledged', 'returned-unacknowledged', 'acknowledged', 'shelved'] as const
  const some = fc.uniqueArray(
    fc.record({
      alarmId: fc.integer({ min: 1, max: 60 }),
      pot: fc.constantFrom('wren', 'heron', 'otter'),
      urgency: fc.constantFrom('at-once', 'soon', 'morning', 'log'),
      state: fc.constantFrom<AlarmLifeState>(...states),
    }),
    { selector: (a) => a.alarmId, maxLength: 20 },
  )
  fc.assert(
    fc.property(some, (changes) => {
      const alarms = changes.map((change) => alarmOf(change.alarmId, change))
      const asking = potsAsking(alarms)
      const shown = asking.flatMap((p) => [p.first, ...p.others])
      const wanted = alarms.filter((a) => a.urgency !== 'log')
      expect(new Set(ids(shown))).toEqual(new Set(ids(wanted)))
      expect(shown).toHaveLength(wanted.length)
      for (const { first, others, unanswered, potId } of asking) {
        expect([first, ...others].every((a) => a.pot === potId)).toBe(true)
        expect(isUnanswered(first) || unanswered.length === 0).toBe(true)
        const isWorse = others.some((a) => isUnanswered(a) && a.urgency === 'at-once')
        expect(isWorse && first.urgency !== 'at-once').toBe(false)
      }
    }),
  )
})

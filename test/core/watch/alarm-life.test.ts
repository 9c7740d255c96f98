import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type AlarmLife, NORMAL, afterAct, afterFact, isActive } from '#core/watch/alarm-life'
import { MAX_SHELF_MIN } from '#core/watch/alarm-shelf'
import { ALARM_NAMES } from '#core/plan/alarm-names'

const T = 1_700_000_000_000
const MIN = 60_000

const LIVES: Readonly<Record<string, AlarmLife>> = {
  normal: NORMAL,
  unacknowledged: { kind: 'unacknowledged', sinceMs: T },
  acknowledged: { kind: 'acknowledged', sinceMs: T, who: 'Ina' },
  'returned-unacknowledged': { kind: 'returned-unacknowledged', sinceMs: T },
  'shelved, active below': { kind: 'shelved', sinceMs: T, untilMs: T + 5 * MIN, active: true },
  'shelved, quiet below': { kind: 'shelved', sinceMs: T, untilMs: T + 5 * MIN, active: false },
  'out of service, active below': { kind: 'out-of-service', sinceMs: T, active: true },
  'out of service, quiet below': { kind: 'out-of-service', sinceMs: T, active: false },
}

type Does = 'raised' | 'cleared' | 'acknowledge' | 'shelve' | 'unshelve' | 'out-of-service' | 'in-service'

const nameOf = (life: AlarmLife): string => {
  if (life.kind === 'shelved') return life.active ? 'shelved, active below' : 'shelved, quiet below'
  if (life.kind === 'out-of-service')
    return life.active ? 'out of service, active below' : 'out of service, quiet below'
  return life.kind
}

function next(life: AlarmLife, does: Does, alarm: (typeof ALARM_NAMES)[number] = 'above-window'): string {
  const atMs = T + MIN
  if (does === 'raised' || does === 'cleared') return nameOf(afterFact(life, { kind: does, atMs }))
  const step = afterAct(alarm, life, { kind: does, atMs, who: 'Mo', minutes: 5 })
  return step.ok ? nameOf(step.life) : 'refused'
}

/**
 * The state diagram of ISA-18.2-2016 / IEC 62682:2014 (alarm states and transitions), also described openly
 * in OPC 10000-9 (UA Part 9). The recurrence from returned-unacknowledged and what an alarm comes back to
 * when it leaves the shelf are from memory.
 */
const TABLE: readonly (readonly [from: string, does: Does, to: string])[] = [
  ['normal', 'raised', 'unacknowledged'],
  ['unacknowledged', 'acknowledge', 'acknowledged'],
  ['unacknowledged', 'cleared', 'returned-unacknowledged'],
  ['acknowledged', 'cleared', 'normal'],
  ['returned-unacknowledged', 'acknowledge', 'normal'],
  ['returned-unacknowledged', 'raised', 'unacknowledged'],
  ['normal', 'shelve', 'shelved, quiet below'],
  ['unacknowledged', 'shelve', 'shelved, active below'],
  ['acknowledged', 'shelve', 'shelved, active below'],
  ['returned-unacknowledged', 'shelve', 'shelved, quiet below'],
  ['shelved, active below', 'cleared', 'shelved, quiet below'],
  ['shelved, quiet below', 'raised', 'shelved, active below'],
  ['shelved, active below', 'unshelve', 'unacknowledged'],
  ['shelved, quiet below', 'unshelve', 'normal'],
  ['normal', 'out-of-service', 'out of service, quiet below'],
  ['unacknowledged', 'out-of-service', 'out of service, active below'],
  ['acknowledged', 'out-of-service', 'out of service, active below'],
  ['returned-unacknowledged', 'out-of-service', 'out of service, quiet below'],
  ['shelved, active below', 'out-of-service', 'out of service, active below'],
  ['out of service, quiet below', 'raised', 'out of service, active below'],
  ['out of service, active below', 'cleared', 'out of service, quiet below'],
  ['out of service, active below', 'in-service', 'unacknowledged'],
  ['out of service, quiet below', 'in-service', 'normal'],
]

test.each(TABLE)('the state table: %s, %s → %s', (from, does, to) => {
  expect(next(LIVES[from]!, does)).toBe(to)
})

test('every act that the state table does not have is refused with one sentence', () => {
  for (const [from, life] of Object.entries(LIVES))
    for (const does of ['acknowledge', 'unshelve', 'out-of-service', 'in-service'] as const) {
      if (TABLE.some((row) => row[0] === from && row[1] === does)) continue
      if (does === 'out-of-service' && life.kind === 'shelved') continue
      const step = afterAct('no-heat', life, { kind: does, atMs: T, who: null })
      expect(step.ok ? '' : step.why, `${from}, ${does}`).toMatch(/^no-heat .{10,100}$/)
    }
})

test('raised twice is raised once, cleared twice is cleared once', () => {
  for (const life of Object.values(LIVES))
    for (const kind of ['raised', 'cleared'] as const) {
      const once = afterFact(life, { kind, atMs: T + MIN })
      expect(afterFact(once, { kind, atMs: T + 2 * MIN })).toBe(once)
    }
})

test('a shelf ends by itself at its time, not a millisecond before', () => {
  const shelved = LIVES['shelved, active below']!
  expect(afterFact(shelved, { kind: 'tick', atMs: T + 5 * MIN - 1 })).toBe(shelved)
  expect(nameOf(afterFact(shelved, { kind: 'tick', atMs: T + 5 * MIN }))).toBe('unacknowledged')
  const quiet = LIVES['shelved, quiet below']!
  expect(afterFact(quiet, { kind: 'tick', atMs: T + 5 * MIN })).toEqual(NORMAL)
})

test('over the ceiling, heat in a cool-down and changed probes are never shelved nor taken out of service', () => {
  for (const alarm of ['above-ceiling', 'not-cooling', 'probes-swapped'] as const)
    for (const life of Object.values(LIVES)) {
      expect(next(life, 'shelve', alarm)).toBe('refused')
      expect(next(life, 'out-of-service', alarm)).toBe('refused')
    }
})

test.each([0, -5, Number.NaN, Number.POSITIVE_INFINITY, MAX_SHELF_MIN + 0.01])(
  'no shelf of %s minutes',
  (minutes) => {
    const step = afterAct('no-heat', NORMAL, { kind: 'shelve', atMs: T, minutes })
    expect(step).toMatchObject({ ok: false })
  },
)

const worsened = (from: string) => nameOf(afterFact(LIVES[from]!, { kind: 'worsened', atMs: T + MIN }))

test('an alarm that worsens wants its person again, on the shelf too, but not out of service', () => {
  expect(worsened('acknowledged')).toBe('unacknowledged')
  expect(worsened('shelved, active below')).toBe('unacknowledged')
  expect(worsened('shelved, quiet below')).toBe('shelved, quiet below')
  expect(worsened('out of service, active below')).toBe('out of service, active below')
  expect(worsened('normal')).toBe('normal')
})

test('whatever people do, the life knows whether the bath still is as the alarm says', () => {
  const does = fc.constantFrom<Does | 'tick'>(
    ...(['raised', 'cleared', 'acknowledge', 'shelve', 'unshelve', 'out-of-service'] as const),
    ...(['in-service', 'tick'] as const),
  )
  fc.assert(
    fc.property(fc.constantFrom(...ALARM_NAMES), fc.array(does, { maxLength: 60 }), (alarm, days) => {
      let life = NORMAL
      let standing = false
      for (const [i, what] of days.entries()) {
        const atMs = T + i * MIN
        if (what === 'raised') standing = true
        if (what === 'cleared') standing = false
        if (what === 'raised' || what === 'cleared' || what === 'tick')
          life = afterFact(life, { kind: what, atMs })
        else {
          const step = afterAct(alarm, life, { kind: what, atMs, who: null, minutes: 7 })
          if (step.ok) life = step.life
        }
        expect(isActive(life)).toBe(standing)
      }
    }),
  )
})

import { expect, test } from 'vitest'
import { HandClock } from '../../kit/hand-clock.ts'
import { KeepAwake } from '../../../server/tell/keep-awake.ts'
import { inhibitorFor } from '../../../server/tell/linux-inhibitor.ts'

function keeper() {
  const clock = new HandClock()
  const log: string[] = []
  const ends: ((why: string) => void)[] = []
  const awake = new KeepAwake(clock, (onEnd) => {
    log.push('start')
    ends.push(onEnd)
    return { end: () => log.push('end') }
  })
  return { clock, log, awake, fail: (why: string) => ends.at(-1)?.(why) }
}

test('while a burner is noted on there is one inhibitor, however often it is asked for', () => {
  const { log, awake } = keeper()
  for (const isOn of [false, true, true, true, false, false]) awake.want(isOn)
  expect(log).toEqual(['start', 'end'])
  expect(awake.state).toEqual({ kind: 'not-needed' })
})

test('a system that refuses is told of and asked again after five minutes', () => {
  const { clock, log, awake, fail } = keeper()
  awake.want(true)
  fail('no bus')
  expect(awake.state).toEqual({ kind: 'may-sleep', why: 'no bus' })
  awake.want(true)
  clock.advance(299_999)
  expect(log).toEqual(['start'])
  clock.advance(1)
  expect([log, awake.state]).toEqual([['start', 'start'], { kind: 'kept-awake' }])
})

test('once nobody needs it nothing is tried again', () => {
  const { clock, awake, fail } = keeper()
  awake.want(true)
  fail('no bus')
  awake.want(false)
  expect(clock.pending).toBe(0)
  fail('late word of an old one')
  expect(awake.state).toEqual({ kind: 'not-needed' })
})

test('on a system that was never tried it says what to do', async () => {
  const awake = new KeepAwake(new HandClock(), inhibitorFor('plan9'))
  awake.want(true)
  await Promise.resolve()
  expect(awake.state).toMatchObject({ kind: 'may-sleep', why: expect.stringContaining('by hand') })
})

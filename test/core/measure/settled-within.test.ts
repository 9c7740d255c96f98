import { expect, test } from 'vitest'
import { isSettledWithin } from '#core/measure/settled-within'
import { HandClock } from '../../kit/hand-clock.ts'

const never = new Promise<void>(() => undefined)

test('what settles in time is waited for, well or badly, and leaves nothing pending', async () => {
  const clock = new HandClock()
  expect(await isSettledWithin(clock, Promise.resolve(), 1000)).toBe(true)
  expect(await isSettledWithin(clock, Promise.reject(new Error('no')), 1000)).toBe(true)
  expect(clock.pending).toBe(0)
})

test('what never settles is waited for to the millisecond and no longer', async () => {
  const clock = new HandClock()
  let waited: boolean | null = null
  void isSettledWithin(clock, never, 1000).then((is) => (waited = is))
  clock.advance(999)
  await Promise.resolve()
  expect(waited).toBe(null)
  clock.advance(1)
  await Promise.resolve()
  expect(waited).toBe(false)
})

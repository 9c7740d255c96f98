import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { HandClock } from '../../kit/hand-clock.ts'
import { BACK_OFF, nextWaitMs } from '../../../server/tell/back-off.ts'
import { Courier, type Verdict } from '../../../server/tell/courier.ts'

const settle = () => new Promise<void>((resolve) => setImmediate(resolve))

function courier(verdicts: Verdict[], mostWaiting = 10) {
  const clock = new HandClock(0)
  const tries: [letter: string, atMs: number][] = []
  const dead: string[] = []
  const made = new Courier<string>({
    clock,
    random01: () => 1,
    backOff: { firstMs: 1000, mostMs: 4000, tries: 5 },
    mostWaiting,
    attempt: (letter) => {
      tries.push([letter, clock.nowMs()])
      return Promise.resolve(verdicts.shift() ?? { kind: 'again', why: 'away' })
    },
    onDead: (letter, why) => dead.push(`${letter}: ${why}`),
  })
  return { clock, tries, dead, made }
}

test('a letter that is taken is sent once', async () => {
  const { clock, tries, dead, made } = courier([{ kind: 'delivered' }])
  await made.send('a')
  expect([tries, dead, made.waiting, clock.pending]).toEqual([[['a', 0]], [], 0, 0])
})

test('while the receiver is away the waits double up to the most, then the letter is given up', async () => {
  const { clock, tries, dead, made } = courier([])
  await made.send('a')
  for (let i = 0; i < 20; i++) {
    clock.advance(1000)
    await settle()
  }
  expect(tries.map(([, atMs]) => atMs)).toEqual([0, 1000, 3000, 7000, 11_000])
  expect(dead).toEqual(['a: away, 5 times'])
  expect(clock.pending).toBe(0)
})

test('what can never be delivered is given up at once', async () => {
  const { clock, dead, made } = courier([{ kind: 'dead', why: 'status 404' }])
  await made.send('a')
  expect([dead, clock.pending]).toEqual([['a: status 404'], 0])
})

test('too many letters: the oldest makes room and is told of', async () => {
  const { clock, dead, made } = courier([], 2)
  for (const letter of ['a', 'b', 'c']) await made.send(letter)
  expect(dead).toEqual(['a: too many letters were waiting'])
  made.stop()
  expect([made.waiting, clock.pending]).toEqual([0, 0])
})

test('after stop nothing is sent any more', async () => {
  const { tries, made } = courier([])
  made.stop()
  await made.send('a')
  expect(tries).toEqual([])
})

test('a wait lies between half and the whole of its step, whatever chance says, and all fit in an hour', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (random01) => {
      const waits = Array.from({ length: BACK_OFF.tries }, (_, i) => nextWaitMs(BACK_OFF, i + 1, random01))
      expect(waits.at(-1)).toBeNull()
      const real = waits.slice(0, -1).map(Number)
      real.forEach((ms, i) => {
        const wholeMs = Math.min(BACK_OFF.mostMs, BACK_OFF.firstMs * 2 ** i)
        expect(ms).toBeGreaterThanOrEqual(wholeMs / 2)
        expect(ms).toBeLessThanOrEqual(wholeMs)
      })
      expect(real.reduce((sum, ms) => sum + ms, 0)).toBeLessThan(3_600_000)
    }),
  )
})

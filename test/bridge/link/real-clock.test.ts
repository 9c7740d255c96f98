import { expect, test } from 'vitest'
import { RealClock } from '../../../bridge/link/real-clock.ts'

const START_MS = 1_700_000_000_000

function computer() {
  const at = { wallMs: START_MS, evenMs: 5000, upMs: 900_000 }
  const clock = new RealClock({ wallMs: () => at.wallMs, evenMs: () => at.evenMs, upMs: () => at.upMs })
  const run = (ms: number) => {
    at.wallMs += ms
    at.evenMs += ms
    at.upMs += ms
  }
  const sleep = (ms: number) => {
    at.wallMs += ms
    at.upMs += ms
  }
  const set = (ms: number) => {
    at.wallMs += ms
  }
  return { clock, run, sleep, set }
}

test('it runs with the wall clock from the start', () => {
  const { clock, run } = computer()
  expect(clock.nowMs()).toBe(START_MS)
  run(1234.4)
  expect(clock.nowMs()).toBe(START_MS + 1234)
})

test.each([3_600_000, -3_600_000, 30_000, -700])(
  'a wall clock that is set by %d ms changes nothing',
  (stepMs) => {
    const { clock, run, set } = computer()
    run(10_000)
    set(stepMs)
    expect(clock.nowMs()).toBe(START_MS + 10_000)
    run(10_000)
    set(-stepMs)
    expect(clock.nowMs()).toBe(START_MS + 20_000)
  },
)

test('time that the computer slept has passed', () => {
  const { clock, run, sleep } = computer()
  run(10_000)
  sleep(7_200_000)
  expect(clock.nowMs()).toBe(START_MS + 7_210_000)
  run(1000)
  sleep(60_000)
  run(1000)
  expect(clock.nowMs()).toBe(START_MS + 7_272_000)
})

test('a clock that is set after a sleep still changes nothing, and it never runs back', () => {
  const { clock, run, sleep, set } = computer()
  sleep(100_000)
  run(5)
  const seen = [clock.nowMs()]
  for (const stepMs of [50_000, -90_000, 3_600_000, -1]) {
    set(stepMs)
    run(20)
    seen.push(clock.nowMs())
  }
  expect(seen.map((ms) => ms - START_MS)).toEqual([100_005, 100_025, 100_045, 100_065, 100_085])
})

test('a long wait is cut to what timers know and does not fire at once', async () => {
  let fired = false
  const cancel = new RealClock().after(2 ** 31, () => {
    fired = true
  })
  await new Promise((resolve) => setTimeout(resolve, 20))
  cancel()
  expect(fired).toBe(false)
})

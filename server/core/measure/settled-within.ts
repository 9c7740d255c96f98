import type { Clock } from './clock.ts'

/**
 * Whether `work` came to its end within `mostMs`, well or badly; for ends that hang on somebody who may never answer.
 * A failure of `work` is not told: whoever must know of it looks at `work` itself.
 */
export function isSettledWithin(clock: Clock, work: Promise<unknown>, mostMs: number): Promise<boolean> {
  return new Promise((resolve) => {
    const cancel = clock.after(mostMs, () => resolve(false))
    const settled = () => {
      cancel()
      resolve(true)
    }
    work.then(settled, settled)
  })
}

import { onTestFinished } from 'vitest'

/** Processor time of one look, and how often one is taken, ms. */
const LOOK_MS = 4
const EVERY_MS = 200

/**
 * How many times longer this machine takes just now than if it had nothing else to do: the worst that was met since
 * this was called, at least 1. A bound in real time is multiplied by it, so that it judges the program and not what
 * else the machine is at.
 */
export function watchSlowness(): () => number {
  let worst = 1
  const looking = setInterval(() => (worst = Math.max(worst, look())), EVERY_MS)
  onTestFinished(() => clearInterval(looking))
  return () => Math.max(worst, look())
}

/** Real time over processor time of a piece of work. */
function look(): number {
  const before = process.cpuUsage()
  const beganMs = performance.now()
  let workedMs = 0
  while (workedMs < LOOK_MS) {
    const { user, system } = process.cpuUsage(before)
    workedMs = (user + system) / 1000
  }
  return (performance.now() - beganMs) / workedMs
}

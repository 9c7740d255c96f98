import type { ChildProcess } from 'node:child_process'

/** Longer than any end of ours takes on the busiest machine, ms. */
const PATIENCE_MS = 30_000

/**
 * Ends a process that a test started and waits until it is gone. One that does not end by `signal` is killed, and the
 * test fails with a word on it: no test may hang on a process, nor leave one behind.
 */
export async function endChild(
  child: ChildProcess | null,
  signal: NodeJS.Signals = 'SIGTERM',
): Promise<void> {
  if (child === null || child.exitCode !== null || child.signalCode !== null) return
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  let isKilled = false
  const kill = setTimeout(() => (isKilled = child.kill('SIGKILL')), PATIENCE_MS)
  child.kill(signal)
  await ended
  clearTimeout(kill)
  if (isKilled)
    throw new Error(`expected ${child.spawnfile} to end by ${signal} within ${PATIENCE_MS / 1000} s`)
}

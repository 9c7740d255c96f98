/** What may still be on its way when a command is done, ms. */
const LEFT_MS = 500

/**
 * Called when everything is written: the program ends even if something outside never answers, be it a driver that
 * holds on to its port. The way out of Node itself waits for threads that are deep in one; a signal does not.
 */
export function leave(): void {
  setTimeout(() => endNow('SIGTERM'), LEFT_MS).unref()
}

/** Ends this process without waiting for anything. */
export function endNow(signal: 'SIGINT' | 'SIGTERM'): void {
  process.removeAllListeners(signal)
  process.kill(process.pid, signal)
}

import { endNow } from './leave.ts'

/** Until somebody asks the program to end. A second time ends it at once. */
export function untilSignal(): Promise<void> {
  return new Promise((resolve) => {
    let asked = false
    const ask = (signal: 'SIGINT' | 'SIGTERM') => {
      if (asked) endNow(signal)
      asked = true
      resolve()
    }
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, ask)
  })
}

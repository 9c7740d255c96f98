import { spawn } from 'node:child_process'
import type { Notify } from './supervisor.ts'

/** A supervisor that has not listened for so long won't, ms; the next word goes out all the same. */
const PATIENCE_MS = 5000

/**
 * Node has no datagram sockets of the kind the supervisor listens on, so its own small program sends the word. The
 * unit needs `NotifyAccess=all` for that.
 */
export function systemdNotify(onTrouble: (sentence: string) => void): Notify {
  let isTold = false
  const trouble = (why: string) => {
    if (!isTold) onTrouble(`the supervisor could not be told that the watch goes round: ${why}`)
    isTold = true
  }
  return (assignments) => {
    const child = spawn('systemd-notify', assignments, { stdio: 'ignore', timeout: PATIENCE_MS })
    // It carries the word alone; this program may end meanwhile.
    child.unref()
    child.on('error', (error) => trouble(error.message))
    child.on('exit', (code, signal) => {
      if (code !== 0) trouble(`systemd-notify ended with ${signal ?? `code ${code}`}`)
    })
  }
}

import { spawn } from 'node:child_process'
import type { Notify } from './supervisor.ts'

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
    const child = spawn('systemd-notify', assignments, { stdio: 'ignore' })
    child.on('error', (error) => trouble(error.message))
    child.on('exit', (code) => {
      if (code !== 0) trouble(`systemd-notify ended with code ${code}`)
    })
  }
}

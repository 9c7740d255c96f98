import { spawn } from 'node:child_process'
import type { Inhibitor, StartInhibitor } from './keep-awake.ts'

const ARGUMENTS = [
  '--what=sleep:idle:handle-lid-switch',
  '--who=Holdfast',
  '--why=a burner is noted on',
  '--mode=block',
]

/**
 * Asks the system not to sleep by a child process. Beneath it runs `cat` on a pipe from this program: when this
 * program dies, however it dies, `cat` comes to its end and the computer may sleep again.
 */
export const linuxInhibitor: StartInhibitor = (onEnd) => {
  const child = spawn('systemd-inhibit', [...ARGUMENTS, 'cat'], { stdio: ['pipe', 'ignore', 'pipe'] })
  let said = ''
  let isEnded = false
  const end = (why: string) => {
    if (!isEnded) onEnd(`this computer can't be kept from sleeping: ${why}`)
    isEnded = true
  }
  child.stderr.on('data', (part: Buffer) => (said = `${said}${part.toString('utf8')}`.slice(0, 300)))
  child.on('error', (error: NodeJS.ErrnoException) =>
    end(error.code === 'ENOENT' ? 'systemd-inhibit is not installed' : error.message),
  )
  child.on('close', (code) => end(said.trim().split('\n')[0] || `systemd-inhibit ended with code ${code}`))
  child.stdin.on('error', () => undefined)
  return {
    end: () => {
      isEnded = true
      child.stdin.end()
      // One that waits for a system which does not answer must not keep this program running.
      child.stderr.destroy()
      child.unref()
    },
  }
}

const NOTHING: Inhibitor = { end: () => undefined }

/** For systems on which nobody has tried it. */
const elsewhere =
  (platform: string): StartInhibitor =>
  (onEnd) => {
    queueMicrotask(() =>
      onEnd(`this computer (${platform}) is not kept from sleeping; switch its sleep off by hand`),
    )
    return NOTHING
  }

export const inhibitorFor = (platform: string): StartInhibitor =>
  platform === 'linux' ? linuxInhibitor : elsewhere(platform)

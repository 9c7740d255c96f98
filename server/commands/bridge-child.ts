import { type ChildProcess, fork } from 'node:child_process'
import type { Logger } from 'pino'

export interface BridgeChildOptions {
  readonly url: string
  readonly data: string
  readonly key: string
  readonly log: Logger
}

/** It is up when it has run this long, ms: what is wrong at its start shows sooner. */
const UP_MS = 700

/** Waits between two starts double up to this, ms. */
const FIRST_WAIT_MS = 500
const LONGEST_WAIT_MS = 30_000

/** A child that does not end when asked is ended, ms. */
const PATIENCE_MS = 4000

/**
 * The bridge beside the server, in a process of its own: a driver that hangs does not hang the watch, and a bridge
 * outlives a server that was killed.
 */
export class BridgeChild {
  readonly #options: BridgeChildOptions
  #child: ChildProcess | null = null
  #waitMs = FIRST_WAIT_MS
  #timer: NodeJS.Timeout | null = null
  #isStopping = false

  constructor(options: BridgeChildOptions) {
    this.#options = options
    this.#start()
  }

  /** Resolves when it has come up, or has failed and will be tried again. */
  up(): Promise<void> {
    return new Promise((resolve) => {
      setTimeout(resolve, UP_MS)
      this.#child?.once('exit', () => resolve())
    })
  }

  async stop(): Promise<void> {
    this.#isStopping = true
    if (this.#timer !== null) clearTimeout(this.#timer)
    const child = this.#child
    if (child === null || child.exitCode !== null || child.signalCode !== null) return
    const ended = new Promise((resolve) => child.once('exit', resolve))
    child.kill('SIGTERM')
    const force = setTimeout(() => child.kill('SIGKILL'), PATIENCE_MS)
    await ended
    clearTimeout(force)
  }

  #start(): void {
    const { url, data, key, log } = this.#options
    const startedMs = performance.now()
    const args = ['bridge', '--server', url, '--data', data, '--child', String(process.pid)]
    const child = fork(process.argv[1]!, args, {
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
      env: { ...process.env, HOLDFAST_BRIDGE_KEY: key },
    })
    this.#child = child
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      for (const line of text.split('\n')) if (line.trim() !== '') log.info(line)
    })
    child.once('exit', (code, signal) => {
      if (this.#isStopping) return
      if (performance.now() - startedMs > LONGEST_WAIT_MS) this.#waitMs = FIRST_WAIT_MS
      log.error(
        `the bridge ended (${signal ?? `exit code ${code}`}); it is started again in ${this.#waitMs / 1000} s`,
      )
      this.#timer = setTimeout(() => this.#start(), this.#waitMs)
      this.#waitMs = Math.min(LONGEST_WAIT_MS, this.#waitMs * 2)
    })
  }
}

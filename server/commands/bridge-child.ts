import { type ChildProcess, fork } from 'node:child_process'
import type { Logger } from 'pino'
import type { Cancel, Clock } from '#core/measure/clock'
import { isSettledWithin } from '#core/measure/settled-within'

export interface BridgeChildOptions {
  readonly url: string
  readonly data: string
  readonly key: string
  readonly log: Logger
  readonly clock: Clock
  /** Starts this program anew; left out: as a process of its own. */
  readonly start?: (args: readonly string[], key: string) => ChildProcess
}

/** It is up when it has run this long, ms: what is wrong at its start shows sooner. */
const UP_MS = 700

/** Waits between two starts double up to this, ms. */
const FIRST_WAIT_MS = 500
const LONGEST_WAIT_MS = 30_000

/** A child that does not end when asked is ended, ms. */
const PATIENCE_MS = 4000
/** One that hangs in a driver can't be ended by anybody before that gives way, ms. */
const KILLED_MS = 1000

/**
 * The bridge beside the server, in a process of its own: a driver that hangs does not hang the watch, and a bridge
 * outlives a server that was killed.
 */
export class BridgeChild {
  readonly #options: BridgeChildOptions
  #child: ChildProcess | null = null
  #waitMs = FIRST_WAIT_MS
  #cancel: Cancel | null = null
  #isStopping = false

  constructor(options: BridgeChildOptions) {
    this.#options = options
    this.#start()
  }

  /** Resolves when it has come up, or has failed and will be tried again. */
  async up(): Promise<void> {
    await isSettledWithin(this.#options.clock, ended(this.#child), UP_MS)
  }

  /** Asks it to end, then makes it, then leaves it to itself. */
  async stop(): Promise<void> {
    this.#isStopping = true
    this.#cancel?.()
    const child = this.#child
    if (child === null || child.exitCode !== null || child.signalCode !== null) return
    const { clock, log } = this.#options
    const isOver = ended(child)
    child.kill('SIGTERM')
    if (await isSettledWithin(clock, isOver, PATIENCE_MS)) return
    child.kill('SIGKILL')
    if (await isSettledWithin(clock, isOver, KILLED_MS)) return
    log.warn(`the bridge (process ${child.pid}) hangs in a driver; it ends when that gives way`)
    letGo(child)
  }

  #start(): void {
    const { url, data, key, log, clock } = this.#options
    const startedMs = clock.nowMs()
    const args = ['bridge', '--server', url, '--data', data, '--child', String(process.pid)]
    const child = (this.#options.start ?? startSelf)(args, key)
    this.#child = child
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      for (const line of text.split('\n')) if (line.trim() !== '') log.info(line)
    })
    child.once('exit', (code, signal) => {
      if (this.#isStopping) return
      if (clock.nowMs() - startedMs > LONGEST_WAIT_MS) this.#waitMs = FIRST_WAIT_MS
      log.error(
        `the bridge ended (${signal ?? `exit code ${code}`}); it is started again in ${this.#waitMs / 1000} s`,
      )
      this.#cancel = clock.after(this.#waitMs, () => this.#start())
      this.#waitMs = Math.min(LONGEST_WAIT_MS, this.#waitMs * 2)
    })
  }
}

const startSelf = (args: readonly string[], key: string): ChildProcess =>
  fork(process.argv[1]!, args, {
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    env: { ...process.env, HOLDFAST_BRIDGE_KEY: key },
  })

const ended = (child: ChildProcess | null): Promise<void> =>
  new Promise((resolve) => void child?.once('exit', () => resolve()))

/** This program must be able to end without it. */
function letGo(child: ChildProcess): void {
  child.unref()
  child.stderr?.destroy()
  if (child.connected) child.disconnect()
}

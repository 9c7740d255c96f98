import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { join } from 'node:path'
import { endChild } from './end-child.ts'

const ROOT = join(import.meta.dirname, '../..')

/** Builds the program once, so that many starts don't. */
export function buildProgram(): void {
  execFileSync(process.execPath, [join(ROOT, 'server/commands/build.js')], { stdio: 'ignore' })
}

/** A command of the program in a process of its own, started and ended as often as a test likes. */
export class Program {
  readonly #args: readonly string[]
  readonly #environment: Readonly<Record<string, string>>
  readonly #limitKiB: number | null
  #child: ChildProcess | null = null
  /** What it wrote, over all its runs. */
  output = ''

  /** `limitKiB`: no file that it writes may grow beyond; stands for a full disk. */
  constructor(
    args: readonly string[],
    environment: Readonly<Record<string, string>> = {},
    limitKiB: number | null = null,
  ) {
    this.#args = args
    this.#environment = environment
    this.#limitKiB = limitKiB
  }

  /** The disk has room again. */
  liftLimit(): void {
    execFileSync('prlimit', ['--pid', String(this.#child!.pid), '--fsize=unlimited:'])
  }

  get isUp(): boolean {
    return this.#child !== null && this.#child.exitCode === null && this.#child.signalCode === null
  }

  /** Starts it; with `until`, waits for that text in what it writes from now on. */
  async start(until?: RegExp): Promise<void> {
    const from = this.output.length
    const entry = join(ROOT, 'server/commands/holdfast.js')
    const node = [process.execPath, entry, ...this.#args]
    // Only the soft limit, so that it can be lifted without being root.
    const limited = ['bash', '-c', `ulimit -S -f ${this.#limitKiB}; exec "$@"`, 'bash', ...node]
    const [program, ...args] = this.#limitKiB === null ? node : limited
    const child = spawn(program!, args, {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...this.#environment },
    })
    this.#child = child
    const onText = (text: string) => {
      this.output += text
    }
    child.stdout.setEncoding('utf8').on('data', onText)
    child.stderr.setEncoding('utf8').on('data', onText)
    if (until !== undefined) await this.#says(until, from)
  }

  async #says(wanted: RegExp, from: number): Promise<void> {
    for (let i = 0; !wanted.test(this.output.slice(from)); i++) {
      if (!this.isUp || i > 4500)
        throw new Error(`expected ${String(wanted)}, got: ${this.output.slice(from)}`)
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }

  async stop(signal: NodeJS.Signals = 'SIGTERM'): Promise<void> {
    const child = this.#child
    this.#child = null
    await endChild(child, signal)
  }
}

import { type ChildProcess, spawn } from 'node:child_process'
import { randomInt } from 'node:crypto'
import { existsSync, writeFileSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { join } from 'node:path'
import { endChild } from './end-child.ts'

/** A broker of its own for one test, on a free port of the loopback. */
export interface TestBroker {
  readonly port: number
  stop(signal?: NodeJS.Signals): Promise<void>
  start(): Promise<void>
}

/** Below what systems hand out by themselves: nobody is given one of these between the look and its use. */
const PORTS = { from: 15_000, to: 30_000 }

/** A port that is free now and stays it, but for another program that asks for it by number. */
export async function freePort(): Promise<number> {
  for (;;) {
    const port = randomInt(PORTS.from, PORTS.to)
    if (await isFree(port)) return port
  }
}

function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = createServer()
    server.once('error', () => resolve(false))
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)))
  })
}

/** `lines`: of its configuration, besides the listener. `tls`: lines that belong to the listener. */
export async function mosquitto(
  folder: string,
  lines: readonly string[] = ['allow_anonymous true'],
): Promise<TestBroker> {
  const port = await freePort()
  const file = join(folder, `mosquitto-${port}.conf`)
  writeFileSync(file, [`listener ${port} 127.0.0.1`, ...lines, 'persistence false', ''].join('\n'))
  const program = existsSync('/usr/sbin/mosquitto') ? '/usr/sbin/mosquitto' : 'mosquitto'
  let child: ChildProcess | null = null

  const start = async (): Promise<void> => {
    child = spawn(program, ['-c', file], { stdio: 'ignore' })
    await untilListening(port)
  }
  const stop = async (signal: NodeJS.Signals = 'SIGTERM'): Promise<void> => {
    const ending = child
    child = null
    await endChild(ending, signal)
  }
  await start()
  return { port, start, stop }
}

async function untilListening(port: number): Promise<void> {
  for (let i = 0; i < 800; i++) {
    const isUp = await new Promise<boolean>((resolve) => {
      const socket = connect(port, '127.0.0.1')
      socket.once('connect', () => {
        socket.destroy()
        resolve(true)
      })
      socket.once('error', () => resolve(false))
    })
    if (isUp) return
    await new Promise((resolve) => setTimeout(resolve, 25))
  }
  throw new Error(`expected a broker on port ${port} within 20 s, got none`)
}

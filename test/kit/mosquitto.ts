import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync, writeFileSync } from 'node:fs'
import { connect, createServer, type AddressInfo } from 'node:net'
import { join } from 'node:path'
import { endChild } from './end-child.ts'

/** A broker of its own for one test, on a free port of the loopback. */
export interface TestBroker {
  readonly port: number
  stop(signal?: NodeJS.Signals): Promise<void>
  start(): Promise<void>
}

/** A port that is free now. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer()
    server.once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo
      server.close(() => resolve(port))
    })
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
  for (let i = 0; i < 200; i++) {
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
  throw new Error(`expected a broker on port ${port} within 5 s, got none`)
}

import { type ChildProcess, spawn } from 'node:child_process'
import { closeSync, existsSync, openSync, writeSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { join } from 'node:path'
import { endChild } from './end-child.ts'
import { until } from './until.ts'

/** A cable: two pseudo-terminals joined by socat. `probe` is the end that a device would write to. */
export interface Cable {
  /** Path that the bridge opens. */
  readonly port: string
  readonly probe: string
  /** Writes as the device does. */
  readonly send: (text: string | Uint8Array) => void
  /** Pulls the plug: both ends go. */
  readonly pull: () => Promise<void>
  /** Plugs it in again under the same paths. */
  readonly plug: () => Promise<void>
}

export async function cable(folder: string, name = 'usb'): Promise<Cable> {
  const port = join(folder, `${name}-port`)
  const probe = join(folder, `${name}-probe`)
  let child: ChildProcess | null = null
  let fd: number | null = null

  const plug = async (): Promise<void> => {
    child = spawn('socat', [`PTY,link=${port},rawer`, `PTY,link=${probe},rawer`], { stdio: 'ignore' })
    await until(() => existsSync(port) && existsSync(probe))
    fd = openSync(probe, 'r+')
  }
  const pull = async (): Promise<void> => {
    const ending = child
    child = null
    if (fd !== null) closeSync(fd)
    fd = null
    await endChild(ending)
  }
  await plug()
  return {
    port,
    probe,
    send: (text) => {
      if (fd !== null) writeSync(fd, typeof text === 'string' ? Buffer.from(text, 'latin1') : text)
    },
    pull,
    plug,
  }
}

/** Reads what is written to the device's end, for devices that answer. */
export async function listen(path: string, onData: (bytes: Buffer) => void): Promise<() => Promise<void>> {
  const file = await open(path, 'r')
  const stream = file.createReadStream()
  stream.on('data', (chunk) => onData(chunk as Buffer))
  stream.on('error', () => {})
  return async () => {
    stream.destroy()
    await file.close().catch(() => {})
  }
}

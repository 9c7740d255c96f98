import { readdir, realpath, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { SerialPort } from 'serialport'
import {
  type OpenPort,
  type PortInfo,
  type PortListener,
  type PortOptions,
  PortTrouble,
  portTrouble,
  type SerialDoor,
} from './serial-door.ts'

/** The real ports, by the serial port library. */
export const realSerialDoor: SerialDoor = { list, open, identity }

async function list(): Promise<readonly PortInfo[]> {
  try {
    const ports = await SerialPort.list()
    return ports.map((p) => ({
      path: p.path,
      vendorId: p.vendorId?.toLowerCase() ?? null,
      productId: p.productId?.toLowerCase() ?? null,
      serialNumber: p.serialNumber ?? null,
      maker: p.manufacturer ?? null,
    }))
  } catch {
    // The library asks a system tool that small systems lack; the kernel's own links still name the ports.
    return listByLinks('/dev/serial/by-id')
  }
}

/** Ports by the links of udev: paths without identities. */
async function listByLinks(folder: string): Promise<readonly PortInfo[]> {
  const names = await readdir(folder).catch(() => [])
  return Promise.all(
    names.map(async (name) => ({
      path: await realpath(join(folder, name)).catch(() => join(folder, name)),
      vendorId: null,
      productId: null,
      serialNumber: null,
      maker: name,
    })),
  )
}

async function identity(path: string): Promise<string | null> {
  try {
    const { dev, ino, rdev } = await stat(path)
    return `${dev}:${ino}:${rdev}`
  } catch {
    return null
  }
}

function open(path: string, options: PortOptions, listener: PortListener): Promise<OpenPort> {
  const { baud, ...rest } = options
  const port = new SerialPort({ path, baudRate: baud, autoOpen: false, ...rest })
  const state = { isClosing: false }
  port.on('data', (bytes: Buffer) => {
    if (!state.isClosing) listener.data(bytes)
  })
  // A pulled plug gives `close` with `disconnected`; an error on the way is followed by it, so it alone is told.
  port.on('error', () => {})
  port.on('close', () => {
    if (!state.isClosing) listener.gone(`${path} went away; is the plug still in?`)
    state.isClosing = true
  })
  return new Promise((resolve, reject) => {
    port.open((error) => {
      if (error) return reject(new PortTrouble(portTrouble(path, error.message)))
      resolve({ write: (bytes) => void port.write(Buffer.from(bytes)), close: () => closePort(port, state) })
    })
  })
}

function closePort(port: SerialPort, state: { isClosing: boolean }): Promise<void> {
  state.isClosing = true
  return new Promise((resolve) => {
    if (!port.isOpen) return resolve()
    port.close(() => resolve())
  })
}

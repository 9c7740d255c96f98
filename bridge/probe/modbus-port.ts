import ModbusRTU from 'modbus-serial'
import {
  type OpenPort,
  type PortListener,
  type PortOptions,
  PortTrouble,
  portTrouble,
} from './serial-door.ts'

export type RegisterAnswer =
  | { readonly ok: true; readonly words: readonly number[] }
  | { readonly ok: false; readonly why: string }

/** A serial line with Modbus stations on it. */
export interface ModbusPort extends OpenPort {
  /** Reads `count` registers from `address` (from 0) by function 3 or 4. */
  read(station: number, fn: 3 | 4, address: number, count: number): Promise<RegisterAnswer>
}

/** Opens the line by the Modbus library: a new client each time, since an old one never recovers from a lost port. */
export async function openModbusPort(
  path: string,
  { baud, ...rest }: PortOptions,
  timeoutMs: number,
  listener: PortListener,
): Promise<ModbusPort> {
  const client = new ModbusRTU()
  let isClosing = false
  client.on('error', () => {})
  client.on('close', () => {
    if (!isClosing) listener.gone(`${path} went away; is the plug still in?`)
    isClosing = true
  })
  await client.connectRTUBuffered(path, { baudRate: baud, ...rest }).catch((error: unknown) => {
    throw new PortTrouble(portTrouble(path, messageOf(error)))
  })
  client.setTimeout(timeoutMs)
  return {
    read: (station, fn, address, count) => read(client, { station, fn, address, count }),
    write: () => {},
    close: () => {
      isClosing = true
      return new Promise((resolve) => {
        if (client.isOpen) client.close(() => resolve())
        else resolve()
      })
    },
  }
}

interface Request {
  readonly station: number
  readonly fn: 3 | 4
  readonly address: number
  readonly count: number
}

async function read(client: ModbusRTU, { station, fn, address, count }: Request): Promise<RegisterAnswer> {
  client.setID(station)
  try {
    const { data } =
      fn === 3
        ? await client.readHoldingRegisters(address, count)
        : await client.readInputRegisters(address, count)
    if (data.length !== count) return { ok: false, why: `${data.length} registers came in place of ${count}` }
    return { ok: true, words: data }
  } catch (error) {
    return { ok: false, why: stationTrouble(messageOf(error)) }
  }
}

const stationTrouble = (message: string): string =>
  /timed? ?out/i.test(message)
    ? 'no answer in time; are station number, wires A and B and the baud rate right?'
    : message.slice(0, 160)

function messageOf(error: unknown): string {
  if (error instanceof Error) return error.message
  const message = (error as { message?: unknown } | null)?.message
  return typeof message === 'string' ? message : String(error)
}

/**
 * A Modbus RTU slave written from the specification alone (Application Protocol V1.1b3 §6.3 and §6.4, serial line
 * guide §2.5.1), for trying a master against something that is not its own library.
 */
export interface RtuSlave {
  readonly station: number
  /** 16-bit registers by address from 0, for function 03 and for function 04. */
  readonly holding: Map<number, number>
  readonly input: Map<number, number>
}

/** CRC-16: preset FFFFh, polynomial A001h, low byte first on the wire. */
export function rtuCrc(bytes: Uint8Array): Uint8Array {
  let crc = 0xffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1
  }
  return Uint8Array.of(crc & 0xff, crc >>> 8)
}

/** The answer to one request frame, or `null` when the frame is for another or broken: then a slave is silent. */
export function rtuAnswer(slaves: readonly RtuSlave[], request: Uint8Array): Uint8Array | null {
  if (request.length !== 8) return null
  const body = request.subarray(0, 6)
  const [low, high] = rtuCrc(body)
  const slave = slaves.find((s) => s.station === request[0])
  if (slave === undefined || request[6] !== low || request[7] !== high) return null
  const view = new DataView(body.buffer, body.byteOffset, 6)
  const fn = body[1]!
  const address = view.getUint16(2)
  const count = view.getUint16(4)
  return framed(answerBody(slave, fn, address, count))
}

function answerBody(slave: RtuSlave, fn: number, address: number, count: number): number[] {
  const table = fn === 3 ? slave.holding : fn === 4 ? slave.input : null
  if (table === null) return [slave.station, fn | 0x80, 1]
  if (count < 1 || count > 125) return [slave.station, fn | 0x80, 3]
  const words = Array.from({ length: count }, (_, i) => table.get(address + i))
  if (words.some((w) => w === undefined)) return [slave.station, fn | 0x80, 2]
  return [slave.station, fn, 2 * count, ...words.flatMap((w) => [w! >> 8, w! & 0xff])]
}

function framed(body: readonly number[]): Uint8Array {
  const bytes = Uint8Array.from(body)
  return Uint8Array.from([...bytes, ...rtuCrc(bytes)])
}

import type { ModbusRegister } from '#core/wire/probe-kinds/modbus-rtu'

/** How many 16-bit registers a value takes. */
export const registerWords = (type: ModbusRegister['type']): 1 | 2 =>
  type === 'int32' || type === 'float32' ? 2 : 1

/**
 * The number in one or two registers, each big-endian as the Modbus protocol has them (V1.1b3 §4.2). Which of two
 * comes first the protocol leaves open: `big` is the high word first.
 */
export function registerValue(
  words: readonly number[],
  type: ModbusRegister['type'],
  wordOrder: ModbusRegister['wordOrder'],
): number {
  const [first = 0, second = 0] = words
  const view = new DataView(new ArrayBuffer(4))
  if (registerWords(type) === 1) view.setUint16(2, first)
  else {
    view.setUint16(0, wordOrder === 'big' ? first : second)
    view.setUint16(2, wordOrder === 'big' ? second : first)
  }
  switch (type) {
    case 'int16':
      return view.getInt16(2)
    case 'uint16':
      return view.getUint16(2)
    case 'int32':
      return view.getInt32(0)
    case 'float32':
      return view.getFloat32(0)
    default:
      return type satisfies never
  }
}

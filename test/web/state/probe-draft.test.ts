import { expect, test } from 'vitest'
import { decodeProbe } from '#core/wire/probe-settings'
import { shownProbe } from '#core/wire/probe-secrets'
import { EMPTY_PROBE, type ProbeEntry, probeEntry, textsOf } from '../../../web/state/probe-draft.ts'
import { ADDABLE_KINDS, type AddableKind, fieldsOf } from '../../../web/state/probe-fields.ts'

const filled = {
  ...EMPTY_PROBE,
  name: 'heron',
  path: '/dev/ttyUSB0',
  line: 'T={tempC}',
  topic: 'studio/heron',
  pointer: '/ds/temp',
  device: '28-0316a2794bff',
  file: 'day.csv',
  scale: '0,1',
  lagS: '12',
}

test.each(ADDABLE_KINDS)('what the form makes of %s is what the settings allow', (kind) => {
  expect(decodeProbe(probeEntry(kind, filled))).toMatchObject({ name: 'heron', kind, lagS: 12 })
  expect(fieldsOf(kind).first.length).toBeGreaterThan(0)
})

test('a register is read by its station and address, its number scaled', () => {
  const setting = probeEntry('modbus-rtu', { ...filled, station: '3', address: '48', function: '4' })
  expect(decodeProbe(setting)).toMatchObject({
    registers: [{ station: 3, address: 48, scale: 0.1, function: 4, type: 'int16', wordOrder: 'big' }],
  })
})

test('a device of the one-wire bus gets the probe’s name or its own; without a number each device is a probe', () => {
  expect(probeEntry('one-wire-files', filled)).toMatchObject({ devices: { '28-0316a2794bff': 'heron' } })
  const two = { ...filled, device: '28-0316a2794bff, 28-0316a2794c00=wren' }
  expect(probeEntry('one-wire-files', two)).toMatchObject({
    devices: { '28-0316a2794bff': 'heron', '28-0316a2794c00': 'wren' },
  })
  expect(probeEntry('one-wire-files', { ...filled, device: ' ' })).not.toHaveProperty('devices')
})

test('what is no number is refused in a sentence that names the field', () => {
  expect(decodeProbe(probeEntry('serial-senml', { ...filled, baud: 'fast' }))).toMatch(/baud/)
  expect(decodeProbe(probeEntry('serial-lines', { ...filled, path: '' }))).toMatch(/path/)
})

const port = { path: '/dev/ttyUSB0', baud: 19_200, parity: 'even', dataBits: 7, stopBits: 2 }
/** Entries that use what there is, as a settings file may have them. */
const ENTRIES = [
  {
    name: 'heron',
    kind: 'serial-lines',
    title: 'Heron’s',
    lagS: 12,
    silentAfterS: 30,
    enabled: false,
    bridge: 'barn',
    ...port,
    line: '{tempC};{tempC}',
    names: ['heron', 'wren'],
    wake: 'go\\r',
    ask: { query: 'MEAS?\\n', everyS: 2 },
  },
  {
    name: 'heron',
    kind: 'serial-senml',
    usb: { vendorId: '0403', productId: '6001', serialNumber: 'A1' },
    baud: 9600,
  },
  {
    name: 'heron',
    kind: 'modbus-rtu',
    ...port,
    registers: [
      {
        station: 2,
        function: 4,
        address: 9,
        type: 'float32',
        wordOrder: 'little',
        scale: 1,
        offset: -1,
        unit: 'F',
      },
      {
        name: 'wren',
        station: 3,
        address: 9,
        function: 3,
        type: 'int16',
        wordOrder: 'big',
        scale: 0.1,
        offset: 0,
        unit: 'C',
      },
    ],
    everyS: 3,
    timeoutMs: 800,
  },
  {
    name: 'heron',
    kind: 'mqtt',
    url: 'mqtts://broker.home.arpa',
    topic: 'studio/+/t',
    payload: { pointer: '/ds/temp', battery: '/bat' },
    unit: 'F',
    nameLevel: 1,
    gone: { topic: 'studio/gone', payload: '1' },
    user: 'dyer',
    caFile: 'ca.pem',
    version: 5,
    signal: { kind: 'platinum', ohms0: 100, leadOhms: 0 },
  },
  {
    name: 'heron',
    kind: 'one-wire-files',
    folder: '/tmp/w1',
    devices: { '28-0316a2794bff': 'otter' },
    everyS: 2,
  },
  { name: 'heron', kind: 'recorded', file: 'day.csv', speed: 60, repeat: true },
] as const

test.each(ENTRIES.map((entry): readonly [AddableKind, ProbeEntry] => [entry.kind, entry]))(
  'an entry of %s that is opened and saved stays what it was',
  (kind, entry) => {
    const decoded = decodeProbe(entry)
    if (typeof decoded === 'string') throw new Error(decoded)
    const shown = { ...shownProbe(decoded) } as ProbeEntry
    expect(decodeProbe(probeEntry(kind, textsOf(shown), shown))).toEqual(decoded)
  },
)

test('a port is given up for the identity of what is plugged in, and the other way round', () => {
  const byPath = { name: 'heron', kind: 'serial-senml', path: '/dev/ttyUSB0', baud: 9600 } as const
  const byUsb = probeEntry('serial-senml', { ...textsOf(byPath), path: '', vendorId: '0403' }, byPath)
  expect(byUsb).toEqual({ name: 'heron', kind: 'serial-senml', baud: 9600, usb: { vendorId: '0403' } })
  const texts = { ...textsOf(byUsb), path: '/dev/ttyUSB0', vendorId: '' }
  expect(probeEntry('serial-senml', texts, byUsb)).toEqual(byPath)
})

test('what has no field stays as it was: the signal of a line, the second register', () => {
  const [lines, , modbus] = ENTRIES
  const signal = { kind: 'ntc-beta', ohms25: 10_000, betaK: 3950 }
  const before = { ...lines, line: '{raw}', names: undefined, signal }
  expect(probeEntry('serial-lines', { ...textsOf(before), baud: '4800' }, before)).toMatchObject({
    signal,
    baud: 4800,
  })
  const { registers } = probeEntry('modbus-rtu', { ...textsOf(modbus), address: '11' }, modbus) as {
    registers: { address: number }[]
  }
  expect(registers.map((r) => r.address)).toEqual([11, 9])
})

test('another kind begins anew; only what both have is carried over', () => {
  const [lines] = ENTRIES
  expect(probeEntry('recorded', { ...textsOf(lines), file: 'day.csv' }, lines)).toEqual({
    name: 'heron',
    kind: 'recorded',
    title: 'Heron’s',
    lagS: 12,
    silentAfterS: 30,
    enabled: false,
    bridge: 'barn',
    file: 'day.csv',
  })
})

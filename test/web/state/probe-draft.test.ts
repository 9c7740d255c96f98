import { expect, test } from 'vitest'
import { decodeProbe } from '#core/wire/probe-settings'
import { ADDABLE_KINDS, EMPTY_PROBE, fieldsOf, probeSetting } from '../../../web/state/probe-draft.ts'

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
  expect(decodeProbe(probeSetting(kind, filled))).toMatchObject({ name: 'heron', kind, lagS: 12 })
  expect(fieldsOf(kind).length).toBeGreaterThan(0)
})

test('a register is read by its station and address, its number scaled', () => {
  const setting = probeSetting('modbus-rtu', { ...filled, station: '3', address: '48' })
  expect(decodeProbe(setting)).toMatchObject({ registers: [{ station: 3, address: 48, scale: 0.1 }] })
})

test('a device of the one-wire bus gets the probe’s name; without its number each device is a probe', () => {
  expect(probeSetting('one-wire-files', filled)).toMatchObject({ devices: { '28-0316a2794bff': 'heron' } })
  expect(probeSetting('one-wire-files', { ...filled, device: ' ' })).not.toHaveProperty('devices')
})

test('what is no number is refused in a sentence that names the field', () => {
  expect(decodeProbe(probeSetting('serial-senml', { ...filled, baud: 'fast' }))).toMatch(/baud/)
  expect(decodeProbe(probeSetting('serial-lines', { ...filled, path: '' }))).toMatch(/path/)
})

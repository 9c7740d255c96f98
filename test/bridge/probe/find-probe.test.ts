import { expect, test } from 'vitest'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { FindProbe } from '../../../bridge/probe/find-probe.ts'
import { fakeWorld, settle } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { until } from '../../kit/until.ts'

async function look(used: readonly ProbeSettings[] = []) {
  const world = fakeWorld()
  world.serial.plugIn({ path: '/dev/ttyUSB0', vendorId: '1a86', productId: '7523', maker: 'Fen Works' })
  world.serial.plugIn({ path: '/dev/ttyUSB1' })
  const set = [...used]
  const find = new FindProbe(world, () => set)
  await settle()
  await until(() => world.clock.pending === 1)
  const again = async () => {
    world.clock.advance(2000)
    await until(() => world.clock.pending === 1)
  }
  const at = (path: string) => find.candidates().find((c) => c.where === path)
  return { world, find, set, again, at }
}

test('every port is listed with what it says and the number in it', async () => {
  const { world, find, at } = await look()
  world.serial.feed('/dev/ttyUSB0', 'T=23.5 C\r\nT=24')
  expect(at('/dev/ttyUSB0')).toMatchObject({
    kind: 'serial',
    about: 'Fen Works, 9600 baud',
    usb: { vendorId: '1a86', productId: '7523' },
    lastText: 'T=23.5 C',
    lastNumber: 23.5,
    usedBy: null,
  })
  expect(at('/dev/ttyUSB1')).toMatchObject({ lastText: null, lastNumber: null })
  await find.close()
  expect(world.serial.isOpen('/dev/ttyUSB0')).toBe(false)
  expect(world.clock.pending).toBe(0)
})

test('while only noise comes the next rate is tried', async () => {
  const { world, find, again, at } = await look()
  world.serial.feed('/dev/ttyUSB0', '\x80\xfe\x00\x01')
  await again()
  world.serial.feed('/dev/ttyUSB0', 'T=23.5\n')
  expect(at('/dev/ttyUSB0')?.about).toBe('Fen Works, 115200 baud')
  await find.close()
})

test('a port that a probe uses is named and never opened', async () => {
  const heron = settingsOf('serial-lines', { path: '/dev/ttyUSB1', line: '{tempC}' })
  const { world, find, at } = await look([heron])
  expect(at('/dev/ttyUSB1')).toMatchObject({ usedBy: 'heron' })
  expect(world.serial.isOpen('/dev/ttyUSB1')).toBe(false)
  await find.close()
})

test('a port that is set as a probe meanwhile is let go of', async () => {
  const { world, find, set, again } = await look()
  expect(world.serial.isOpen('/dev/ttyUSB0')).toBe(true)
  set.push(settingsOf('serial-lines', { usb: { vendorId: '1a86' }, line: '{tempC}' }))
  await again()
  expect(world.serial.isOpen('/dev/ttyUSB0')).toBe(false)
  await find.close()
})

test('a port that may not be opened says why, and one that is pulled leaves the list', async () => {
  const { world, find, again, at } = await look()
  world.serial.unplug('/dev/ttyUSB1')
  world.serial.plugIn({ path: '/dev/ttyUSB2' })
  world.serial.refusals.set('/dev/ttyUSB2', 'Error: Permission denied')
  await again()
  expect(at('/dev/ttyUSB1')).toBeUndefined()
  expect(at('/dev/ttyUSB2')?.trouble).toContain('dialout')
  await find.close()
})

test('a port that is only a name, with no chip behind it, is left out', async () => {
  const { world, find, again, at } = await look()
  world.serial.plugIn({ path: '/dev/ttyS7' })
  world.serial.refusals.set('/dev/ttyS7', 'Error: Input/output error setting custom baud rate')
  await again()
  expect(at('/dev/ttyS7')).toBeUndefined()
  await find.close()
})

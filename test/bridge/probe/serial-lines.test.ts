import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { openSerialLines } from '../../../bridge/probe/serial-lines.ts'
import { fakeWorld, Listener, settle } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'

const PATH = '/dev/ttyUSB0'

const settings = (more: object) => settingsOf('serial-lines', { path: PATH, line: 'T={tempC}', ...more })

async function opened(more: object = {}) {
  const world = fakeWorld()
  world.serial.plugIn({ path: PATH })
  const sink = new Listener()
  const source = openSerialLines(settings(more), sink, world)
  await settle()
  return { world, sink, source, feed: (text: string) => world.serial.feed(PATH, text) }
}

test('joined and cut lines become one sample each, stamped at their arrival', async () => {
  const { world, sink, source, feed } = await opened()
  feed('T=71.2\r\nT=71')
  world.clock.advance(1000)
  feed('.3\r\n')
  expect(sink.heard).toEqual(['heron 71.2', 'heron 71.3'])
  expect(sink.samples[1]!.atMs - sink.samples[0]!.atMs).toBe(1000)
  await source.close()
  expect(world.clock.pending).toBe(0)
})

test('°F becomes °C and keeps what was sent beside a fault', async () => {
  const { sink, source, feed } = await opened({ line: '{tempF} F' })
  feed('0 F\n160.0 F\n500 F\n')
  expect(sink.heard).toEqual(['heron 71.111', 'heron impossible'])
  expect(sink.samples[1]).toMatchObject({ found: '500 °F' })
  await source.close()
})

test('a field that is no number is a fault with what was found, a line of another shape is refused', async () => {
  const { sink, source, feed } = await opened()
  feed('T=--\nT=\nT=nan\nhello\nT=-127\nT=+9.91000000E+37\n')
  expect(sink.heard).toEqual([
    'heron error-code',
    'heron error-code',
    'heron error-code',
    'heron not-connected',
    'heron error-code',
  ])
  expect(sink.samples.map((s) => (s.kind === 'fault' ? s.found : ''))).toEqual([
    '--',
    'empty',
    'nan',
    '-127',
    '+9.91000000E+37',
  ])
  expect(sink.refusals).toEqual(['a line that is not of the set shape: "hello"'])
  await source.close()
})

test('several probes in one line, by place or by name', async () => {
  const byPlace = await opened({ line: '{tempC};{tempC}', names: ['heron', 'wren'] })
  byPlace.feed('half\n70.1;64.2\n')
  expect(byPlace.sink.heard).toEqual(['heron 70.1', 'wren 64.2'])
  await byPlace.source.close()
  const byName = await opened({ line: '{name}={tempC}', names: { A: 'heron', B: 'wren' } })
  byName.feed('xx\nA=70.1\nB=64.2\nC=1\n')
  expect(byName.sink.heard).toEqual(['heron 70.1', 'wren 64.2'])
  expect(byName.sink.refusals).toContainEqual(expect.stringContaining('"C"'))
  await byName.source.close()
})

test('the first line is dropped only where half of one can not be told from a whole', async () => {
  const bare = await opened({ line: '{tempC}' })
  bare.feed('1.2\n71.3\n')
  expect(bare.sink.heard).toEqual(['heron 71.3'])
  await bare.source.close()
  const marked = await opened()
  marked.feed('1.2\nT=71.3\n')
  expect(marked.sink.heard).toEqual(['heron 71.3'])
  await marked.source.close()
})

test('a device that answers when asked is asked at its interval, and woken first', async () => {
  const { world, sink, source, feed } = await opened({
    line: '{tempC}',
    wake: 'REMOTE\\r\\n',
    ask: { query: 'READ?\\n', everyS: 2 },
  })
  feed('+7.12000E+01\n')
  world.clock.advance(4000)
  expect(world.serial.written(PATH)).toBe('REMOTE\r\nREAD?\nREAD?\nREAD?\n')
  expect(sink.heard).toEqual(['heron 71.2'])
  await source.close()
  expect(world.clock.pending).toBe(0)
})

test('ohms of a platinum sensor become °C', async () => {
  // IEC 60751: a Pt100 has 130.90 ohm at 80 °C.
  const { sink, source, feed } = await opened({ line: 'R={raw}', signal: { kind: 'platinum' } })
  feed('R=130.90\nR=9999999\n')
  expect(sink.heard[0]).toMatch(/^heron (80|80\.0\d*|79\.99\d*)$/)
  expect(sink.heard[1]).toBe('heron not-connected')
  await source.close()
})

test('a port that goes is told and opened again, and half a line goes with it', async () => {
  const { world, sink, source, feed } = await opened()
  feed('T=71.2\nT=8')
  world.serial.unplug(PATH)
  expect(sink.ways.at(-1)).toMatch(/^trouble: \/dev\/ttyUSB0 went away/)
  world.serial.plugIn({ path: PATH })
  world.clock.advance(500)
  await settle()
  expect(sink.ways.at(-1)).toMatch(/^open/)
  feed('1.1\nT=71.3\n')
  expect(sink.heard).toEqual(['heron 71.2', 'heron 71.3'])
  await source.close()
})

test('a port that goes without a word is noticed within 2 s', async () => {
  const { world, sink, source } = await opened()
  world.serial.unplug(PATH, 'silent')
  world.clock.advance(2000)
  await settle()
  expect(sink.ways.at(-1)).toMatch(/^trouble/)
  world.serial.plugIn({ path: PATH })
  world.clock.advance(500)
  await settle()
  expect(world.serial.isOpen(PATH)).toBe(true)
  await source.close()
})

test('another device under the same path is opened anew', async () => {
  const { world, source } = await opened()
  world.serial.unplug(PATH, 'silent')
  world.serial.plugIn({ path: PATH })
  world.clock.advance(2000)
  await settle()
  world.clock.advance(2000)
  await settle()
  expect(world.serial.opened).toBe(2)
  await source.close()
})

const USB = { vendorId: '1a86', productId: '7523' }

test('a port is found by what is plugged in, wherever it comes up', async () => {
  const world = fakeWorld()
  const sink = new Listener()
  const source = openSerialLines(
    settings({ path: undefined, usb: { ...USB, vendorId: '1A86' } }),
    sink,
    world,
  )
  await settle()
  expect(sink.ways.at(-1)).toContain('no port is USB vendor 1A86 product 7523')
  world.serial.plugIn({ path: '/dev/ttyUSB3', ...USB })
  world.clock.advance(2000)
  await settle()
  world.serial.feed('/dev/ttyUSB3', 'T=70\n')
  expect(sink.heard).toEqual(['heron 70'])
  await source.close()
})

test('two ports that match are refused until a serial number says which', async () => {
  const world = fakeWorld()
  world.serial.plugIn({ path: '/dev/ttyUSB0', ...USB, serialNumber: 'A1' })
  world.serial.plugIn({ path: '/dev/ttyUSB1', ...USB, serialNumber: 'A2' })
  const sink = new Listener()
  const source = openSerialLines(settings({ path: undefined, usb: USB }), sink, world)
  await settle()
  expect(sink.ways.at(-1)).toMatch(/2 ports are .*\/dev\/ttyUSB0, \/dev\/ttyUSB1.*serialNumber/)
  await source.close()
  const exact = openSerialLines(
    settings({ path: undefined, usb: { ...USB, serialNumber: 'A2' } }),
    sink,
    world,
  )
  await settle()
  expect(world.serial.isOpen('/dev/ttyUSB1')).toBe(true)
  await exact.close()
})

test.each([
  ['Error: Permission denied, cannot open', /may not be opened.*dialout/],
  ['Error Resource temporarily unavailable Cannot lock port', /held by another program/],
  ['Error: No such file or directory', /is not there; is the probe plugged in/],
  ['Error: something odd', /can't be opened: something odd/],
])('"%s" is told in one sentence with what to do', async (said, sentence) => {
  const world = fakeWorld()
  world.serial.plugIn({ path: PATH })
  world.serial.refusals.set(PATH, said)
  const sink = new Listener()
  const source = openSerialLines(settings({}), sink, world)
  await settle()
  expect(sink.ways).toHaveLength(1)
  expect(sink.ways[0]).toMatch(sentence)
  await source.close()
  expect(world.clock.pending).toBe(0)
})

test('any bytes in: never a crash, never a number that was not sent', async () => {
  const piece = fc.oneof(
    fc.uint8Array({ maxLength: 40 }).map((b) => String.fromCharCode(...b)),
    fc.constantFrom('T=71.2\n', 'T=', '\r\n', 'T=8', '71.2\n', 'T=1e400\n', 'x'.repeat(600)),
  )
  await fc.assert(
    fc.asyncProperty(fc.array(piece, { maxLength: 12 }), async (pieces) => {
      const { sink, source, feed } = await opened()
      for (const one of pieces) feed(one)
      const all = pieces.join('')
      const invented = sink.samples.filter((s) => s.kind === 'temp' && !isIn(all, s.rawC))
      expect(invented).toEqual([])
      await source.close()
    }),
  )
})

/** Was this number sent, as a whole field up to a line end? */
function isIn(all: string, rawC: number): boolean {
  return [...all.matchAll(/T=([^\r\n]*)[\r\n]/g)].some((m) => Number(m[1]!.trim().replace(',', '.')) === rawC)
}

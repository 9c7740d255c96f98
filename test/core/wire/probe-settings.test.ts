import { expect, test } from 'vitest'
import { probesOfBridge } from '#core/wire/bridge-link'
import { decodeProbe, decodeProbes } from '#core/wire/probe-settings'

const EXAMPLES = [
  { name: 'heron', kind: 'serial-lines', path: '/dev/ttyUSB0', baud: 9600, line: 'T={tempC}', lagS: 12 },
  { name: 'wren', kind: 'mqtt', url: 'mqtt://127.0.0.1:1883', topic: 'studio/wren/temperature' },
]

test('the example of the documents is taken, with its defaults filled in', () => {
  const decoded = decodeProbes(EXAMPLES)
  expect(decoded).toMatchObject({
    ok: true,
    probes: [
      { name: 'heron', kind: 'serial-lines', baud: 9600, lagS: 12 },
      { name: 'wren', kind: 'mqtt', payload: 'number', unit: 'C', version: 4 },
    ],
  })
})

test('a port may be named by what is plugged in', () => {
  expect(
    decodeProbe({
      name: 'heron',
      kind: 'serial-lines',
      usb: { vendorId: '1a86', productId: '7523' },
      line: '{tempC}',
    }),
  ).toMatchObject({ baud: 9600, usb: { vendorId: '1a86' } })
})

const TABLE_LINE = { ohms: 32_650, tempC: 0 }
const MQTT = { ...EXAMPLES[1], name: 'heron' }

const wrong: readonly (readonly [string, object, readonly string[]])[] = [
  ['an unknown key', { ...EXAMPLES[0], bauds: 9600 }, ['"bauds"', 'nearest known one is "baud"']],
  [
    'a table with the same line twice',
    {
      ...EXAMPLES[0],
      line: '{raw}',
      signal: { kind: 'ntc-table', points: [TABLE_LINE, TABLE_LINE, { ohms: 680, tempC: 100 }] },
    },
    ['signal: points is', 'three different temperatures'],
  ],
  [
    'a misspelt kind',
    { ...EXAMPLES[0], kind: 'serial-line' },
    ['kind', 'nearest known one is "serial-lines"'],
  ],
  ['a rate in words', { ...EXAMPLES[0], baud: 'fast' }, ['baud', '"fast"', 'number']],
  ['no line', { name: 'heron', kind: 'serial-lines', path: '/dev/x' }, ['line is missing']],
  ['a field that is not known', { ...EXAMPLES[0], line: 'T={temp}' }, ['line', '{temp}', '{tempC}']],
  ['two fields running', { ...EXAMPLES[0], line: '{tempC}{skip}' }, ['line', 'nothing between']],
  ['neither path nor identity', { name: 'heron', kind: 'serial-lines', line: '{tempC}' }, ['path', 'usb']],
  ['a pointer without its slash', { ...MQTT, payload: { pointer: 'temp' } }, ['payload']],
  ['a wrong topic filter', { ...MQTT, topic: 'a/#/b' }, ['topic', 'a/#/b', 'last level']],
  [
    'an unknown key further down',
    { ...EXAMPLES[0], ask: { query: '?', everyS: 1, evry: 2 } },
    ['evry', '"everyS"'],
  ],
  ['ohms without a signal', { ...EXAMPLES[0], line: 'R={raw}' }, ['line', 'signal']],
  ['two values and one name', { ...EXAMPLES[0], line: '{tempC};{tempC}' }, ['names', '2 values']],
]

test.each(wrong)('%s is refused with the field, what was found and what is allowed', (_, settings, words) => {
  const decoded = decodeProbes([settings])
  const why = decoded.ok ? 'taken' : decoded.why
  expect(why).toMatch(/^probe "heron": .{20,}$/)
  for (const word of words) expect(why).toContain(word)
})

test('three lines of a thermistor’s table are taken', () => {
  const points = [TABLE_LINE, { ohms: 3603, tempC: 50 }, { ohms: 680, tempC: 100 }]
  const signal = { kind: 'ntc-table', points }
  expect(decodeProbes([{ ...EXAMPLES[0], line: '{raw}', signal }])).toMatchObject({
    ok: true,
    probes: [{ signal }],
  })
})

test('a name given twice is refused', () => {
  expect(decodeProbes([EXAMPLES[0], { ...EXAMPLES[1], name: 'heron' }])).toMatchObject({
    ok: false,
    why: expect.stringContaining('"heron": the name is given twice'),
  })
})

test('a key that would reach into an object’s prototype is a key like any other', () => {
  expect(decodeProbe(JSON.parse('{"kind":"__proto__"}'))).toContain('kind')
  expect(
    decodeProbe(JSON.parse('{"name":"a","kind":"mqtt","__proto__":{"x":1},"url":"mqtt://h","topic":"t"}')),
  ).toBeTruthy()
  expect(({} as { x?: number }).x).toBeUndefined()
})

test('a bridge reads the probes that name it, and the server’s own also those that name none', () => {
  const decoded = decodeProbes([
    EXAMPLES[0],
    { ...EXAMPLES[1], bridge: 'barn' },
    { ...MQTT, name: 'off', enabled: false },
  ])
  const probes = decoded.ok ? decoded.probes : []
  const names = (bridge: string, isOwn: boolean, hasOwn: boolean) =>
    probesOfBridge(probes, bridge, { isOwn, hasOwn }).map((p) => p.name)
  expect(names('studio', true, true)).toEqual(['heron'])
  expect(names('barn', false, true)).toEqual(['wren'])
  expect(names('barn', false, false)).toEqual(['heron', 'wren'])
})

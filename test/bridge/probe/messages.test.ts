import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { tellMessage } from '../../../bridge/probe/message-samples.ts'
import { tellSenml } from '../../../bridge/probe/senml-samples.ts'
import { Listener } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'

const NOW_MS = 1_760_000_000_000
const BROKER = { url: 'mqtt://127.0.0.1', topic: 'studio/heron/temperature' }

function told(payload: string, more: object = {}, topic = BROKER.topic): Listener {
  const sink = new Listener()
  tellMessage(
    settingsOf('mqtt', { ...BROKER, ...more }),
    topic,
    new TextEncoder().encode(payload),
    NOW_MS,
    sink,
  )
  return sink
}

test('a bare number is °C of the probe, stamped at its arrival', () => {
  expect(told(' 71.25\n').samples).toEqual([{ kind: 'temp', probe: 'heron', atMs: NOW_MS, rawC: 71.25 }])
  expect(told('160.25', { unit: 'F' }).heard).toEqual(['heron 71.25'])
})

test.each(['', '--', 'NaN', 'unavailable', '{"a":1}', '9.91E37'])(
  '"%s" is a fault and never a number',
  (payload) => {
    expect(told(payload).samples).toMatchObject([{ kind: 'fault', fault: 'error-code' }])
  },
)

test('°F sent as °C is a fault that keeps what was found', () => {
  expect(told('176').samples).toMatchObject([{ kind: 'fault', fault: 'impossible', found: '176 °C' }])
})

test('a pointer finds the number, as a number or as text, and the battery', () => {
  const at = { payload: { pointer: '/ds/0/temp', battery: '/batt' } }
  expect(told('{"ds":[{"temp":71.2}],"batt":43}', at)).toMatchObject({
    heard: ['heron 71.2'],
    batteries: [['heron', 43]],
  })
  expect(told('{"ds":[{"temp":"71.2"}]}', at).heard).toEqual(['heron 71.2'])
  expect(told('{"ds":[{"temp":null}]}', at).heard).toEqual(['heron error-code'])
  expect(told('{"ds":[]}', at).refusals).toEqual(['a message with nothing at /ds/0/temp'])
  expect(told('71.2', at).refusals[0]).toContain('nothing at')
  expect(told('{"ds"', at).refusals[0]).toContain('not JSON')
})

test('with a wildcard the name comes from the topic', () => {
  const wild = { topic: 'studio/+/temperature' }
  expect(told('70', wild, 'studio/wren/temperature').heard).toEqual(['wren 70'])
  expect(told('70', { topic: '#', nameLevel: 2 }, 'a/b/otter').heard).toEqual(['otter 70'])
  expect(told('70', wild, 'studio/my pot/temperature').refusals[0]).toContain('no level')
  expect(told('70', wild, 'studio/my pot/temperature').heard).toEqual([])
})

test('SenML on a topic is of that topic’s probe, whatever names it has', () => {
  expect(told('[{"n":"urn:dev:ow:1","u":"Cel","v":23.1}]', { payload: 'senml' }).heard).toEqual([
    'heron 23.1',
  ])
  expect(told('{"u":"Cel","v":23.1}', { payload: 'senml' }).heard).toEqual(['heron 23.1'])
})

const senml = (text: string) => {
  const sink = new Listener()
  tellSenml(text, NOW_MS, sink, (name) => (name === 'nameless' ? 'heron' : name))
  return sink
}

test('a device’s own clock only spaces its readings; the newest is of now', () => {
  const pack =
    '[{"bt":946684800,"bu":"Cel","n":"wren","v":70},{"n":"wren","t":-10,"v":69},{"t":-5,"n":"otter","v":64}]'
  expect(senml(pack).samples.map((s) => [s.probe, s.atMs - NOW_MS])).toEqual([
    ['wren', -10_000],
    ['otter', -5000],
    ['wren', 0],
  ])
})

test('names with and without a base, a bridge or an urn are understood', () => {
  expect(senml('[{"bn":"urn:dev:mac:1:","bu":"Cel","n":"a","v":1},{"n":"b","v":2}]').heard).toEqual([
    'urn:dev:mac:1:a 1',
    'urn:dev:mac:1:b 2',
  ])
  expect(senml('[{"bn":"wren","u":"Cel","v":70}]').heard).toEqual(['wren 70'])
  expect(senml('[{"n":"barn/wren","u":"Cel","v":70}]').heard).toEqual(['wren 70'])
})

// RFC 8428 §12.1 lists %EL, remaining battery energy level in percent.
test('the battery is told where the device speaks of it', () => {
  expect(senml('[{"u":"Cel","v":70},{"u":"%EL","v":12}]')).toMatchObject({
    heard: ['heron 70'],
    batteries: [['heron', 12]],
    refusals: [],
  })
})

test('no message makes it throw, and no number comes out that was not in it', () => {
  const text = fc.oneof(
    fc.string(),
    fc.json(),
    fc.constantFrom('7', '[]', '{}', 'null', '[null]', '{"bn":1}'),
  )
  const kinds = fc.constantFrom(
    {},
    { payload: 'senml' },
    { payload: { pointer: '' } },
    { payload: { pointer: '/a' } },
  )
  fc.assert(
    fc.property(text, kinds, (payload, kind) => {
      const { samples } = told(payload, kind)
      const invented = samples.filter((s) => s.kind === 'temp' && !hasNumber(payload, s.rawC))
      expect(invented).toEqual([])
    }),
  )
})

/** Numbers in a JSON text may be written in many ways (`-0`, `1e2`): compare them as numbers. */
function hasNumber(text: string, rawC: number): boolean {
  return [...text.matchAll(/[+-]?[\d.,]+(?:[eE][+-]?\d+)?/g)].some(
    (m) => Number(m[0].replace(',', '.')) === rawC || m[0].split(',').some((part) => Number(part) === rawC),
  )
}

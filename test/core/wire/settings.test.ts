import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { nearestName } from '#core/wire/nearest-name'
import { decodeSettings } from '#core/wire/settings'
import { settingsFromFlags, settingsFromVariables, variableName } from '#core/wire/settings-from-text'

const file = (values: Record<string, unknown>) => ({ where: 'holdfast.json', values })
const why = (values: Record<string, unknown>) => {
  const decoded = decodeSettings([file(values)])
  return decoded.ok ? null : decoded.why
}

test('nothing set gives the defaults of docs/settings.md', () => {
  const decoded = decodeSettings([])
  expect(decoded.ok && decoded.settings).toMatchObject({
    port: 4715,
    host: '127.0.0.1',
    log: 'info',
    probes: [],
  })
})

test('a wrong setting is one sentence with field, found and allowed', () => {
  expect(why({ port: 70_000 })).toBe('holdfast.json: port is 70000; allowed is at most 65535')
  expect(why({ prot: 1 })).toBe(
    'holdfast.json: the field "prot" is not known; the nearest known one is "port"',
  )
  expect(why({ log: 'loud' })).toBe(
    'holdfast.json: log is "loud"; allowed is "debug", "info", "warn", "error", "silent"',
  )
  expect(
    why({ probes: [{ name: 'heron', kind: 'serial-lines', path: '/dev/x', line: 'T={tempC}', baudd: 1 }] }),
  ).toBe('holdfast.json: probe "heron": the field "baudd" is not known; the nearest known one is "baud"')
  expect(why({ alarms: { 'below-windo': { onDelayS: 1 } } })).toBe(
    'holdfast.json: alarms: the field "below-windo" is not known; the nearest known one is "below-window"',
  )
  expect(why({ alarms: { 'below-window': { onDelay: 1 } } })).toBe(
    'holdfast.json: alarms: below-window: the field "onDelay" is not known; the nearest known one is "onDelayS"',
  )
  expect(why({ port: 1.5 })).toBe('holdfast.json: port is 1.5; allowed is a whole number')
})

test('the settings may not silence by a delay what may not be silenced', () => {
  expect(why({ alarms: { 'above-ceiling': { onDelayS: 600 } } })).toBe(
    'holdfast.json: alarms: above-ceiling: onDelayS is 600; allowed is a number from 0 to 120 s',
  )
  expect(why({ alarms: { 'not-cooling': { inService: false } } })).toContain('stays in service')
  expect(why({ alarms: { 'near-boil': { deadbandC: -1 } } })).toContain('from 0 to 10 °C')
  const fine = { 'above-ceiling': { onDelayS: 120 }, 'near-boil': { inService: false, deadbandC: 10 } }
  expect(decodeSettings([{ where: 'holdfast.json', values: { alarms: fine } }])).toMatchObject({ ok: true })
})

test('two neighbours that changed places are one slip, so the word that was meant is nearer than another', () => {
  expect(nearestName('hsot', ['hat', 'host'])).toBe('host')
  expect(nearestName('hold_min', ['holdC', 'holdMin'])).toBe('holdMin')
  expect(nearestName('litres', ['title', 'vessel.litres'])).toBe('vessel.litres')
  expect(nearestName('x', [])).toBeUndefined()
})

test('a wrong variable or flag is named as it was written', () => {
  const layers = settingsFromVariables({ HOLDFAST_PORT: 'abc', PATH: '/bin' })
  expect(typeof layers !== 'string' && decodeSettings(layers)).toEqual({
    ok: false,
    why: 'HOLDFAST_PORT is "abc"; allowed is a number',
  })
  expect(settingsFromVariables({ HOLDFAST_PROT: '1' })).toBe(
    'the variable HOLDFAST_PROT is not known; the nearest known one is HOLDFAST_PORT',
  )
  expect(decodeSettings(settingsFromFlags({ port: '-1' }))).toEqual({
    ok: false,
    why: '--port is -1; allowed is at least 0',
  })
})

test('variables are named after their fields, and lists are split at commas', () => {
  expect(variableName('altitudeM')).toBe('HOLDFAST_ALTITUDE_M')
  const layers = settingsFromVariables({ HOLDFAST_HOSTS: 'studio.example, pi', HOLDFAST_ALTITUDE_M: '320' })
  const decoded = typeof layers === 'string' ? null : decodeSettings(layers)
  expect(decoded?.ok && decoded.settings).toMatchObject({ hosts: ['studio.example', 'pi'], altitudeM: 320 })
})

test('property: flags win over variables, variables over the file, the file over the defaults', () => {
  const maybePort = fc.option(fc.integer({ min: 1, max: 65_535 }), { nil: undefined })
  fc.assert(
    fc.property(maybePort, maybePort, maybePort, (inFile, inVariable, inFlag) => {
      const variables = settingsFromVariables({ HOLDFAST_PORT: inVariable?.toString() })
      const layers = [
        file(inFile === undefined ? {} : { port: inFile }),
        ...(typeof variables === 'string' ? [] : variables),
        ...settingsFromFlags({ port: inFlag?.toString() }),
      ]
      const decoded = decodeSettings(layers)
      expect(decoded.ok && decoded.settings.port).toBe(inFlag ?? inVariable ?? inFile ?? 4715)
    }),
  )
})

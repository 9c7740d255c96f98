import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { DEFAULT_SETTINGS, readSettings } from '../../../web/state/device-settings.ts'
import { type Route, parseRoute, routeHref } from '../../../web/state/route.ts'

const id = fc.nat({ max: 1_000_000 })
const PLAIN = [
  'stove',
  'batches',
  'plans',
  'probes',
  'night',
  'morning',
  'settings',
  'stock',
  'shades',
  'class',
] as const
const routes: fc.Arbitrary<Route> = fc.oneof(
  fc.constantFrom<Route>(
    ...PLAIN.map((kind) => ({
      kind,
    })),
  ),
  fc.record({ kind: fc.constant('pot' as const), potId: fc.string({ minLength: 1, maxLength: 12 }) }),
  fc.record({
    kind: fc.constantFrom('burner' as const, 'what-if' as const, 'evening' as const),
    potId: fc.string({ minLength: 1, maxLength: 12 }),
  }),
  fc.record({ kind: fc.constant('batch' as const), batchId: id }),
  fc.record({ kind: fc.constant('begin-batch' as const), batchId: id }),
  fc.record({ kind: fc.constantFrom('weigh' as const, 'record', 'repeat'), batchId: id }),
  fc.record({ kind: fc.constant('differs' as const), batchId: id, fromId: id }),
  fc.record({ kind: fc.constant('compare' as const), ids: fc.array(id, { minLength: 2, maxLength: 6 }) }),
  fc.record({ kind: fc.constant('find' as const), facet: fc.string({ minLength: 1, maxLength: 20 }) }),
  fc.record({ kind: fc.constant('plan' as const), planId: fc.oneof(id, fc.constant('new' as const)) }),
  fc.record({ kind: fc.constant('start-batch' as const), planId: fc.option(id) }),
)

test('every page’s address leads back to it, whatever a pot is called', () => {
  fc.assert(
    fc.property(routes, (route) => {
      expect(parseRoute(routeHref(route))).toEqual(route)
    }),
  )
})

test('an address that isn’t known is said to be unknown and never throws', () => {
  expect(parseRoute('#/batches/12x').kind).toBe('unknown')
  expect(parseRoute('#/pots/a/b').kind).toBe('unknown')
  expect(parseRoute('#/compare/3').kind).toBe('unknown')
  expect(parseRoute('#/compare/1,2,3,4,5,6,7').kind).toBe('unknown')
  expect(parseRoute('#/%E0%A4%A').kind).toBe('unknown')
  fc.assert(fc.property(fc.string(), (hash) => void parseRoute(hash)))
})

test('settings survive being stored, and broken ones fall back to the defaults', () => {
  const chosen = {
    ...DEFAULT_SETTINGS,
    unit: 'F',
    theme: 'dark',
    who: 'Ines',
    loudness01: 0.3,
    soundWanted: true,
  } as const
  expect(readSettings(JSON.stringify(chosen))).toEqual(chosen)
  expect(readSettings(null)).toEqual(DEFAULT_SETTINGS)
  expect(readSettings('{')).toEqual(DEFAULT_SETTINGS)
  expect(
    readSettings('{"unit":"K","loudness01":7,"who":5,"theme":"grey","scaleStep":3,"soundWanted":"yes"}'),
  ).toEqual(DEFAULT_SETTINGS)
})

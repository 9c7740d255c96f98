import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { decodeSenml } from '#core/wire/senml'

const NOW_MS = Date.UTC(2026, 0, 10)

const odd = fc.oneof(fc.jsonValue({ maxDepth: 1 }), fc.constantFrom(0, -1, 1.5, 2 ** 53, '', 'x'.repeat(65)))
const or = <T>(usual: fc.Arbitrary<T>) =>
  fc.oneof({ arbitrary: usual, weight: 12 }, { arbitrary: odd, weight: 1 })
const record = fc.record(
  {
    bn: or(fc.constantFrom('pi/', 'urn:', '')),
    bt: or(fc.constantFrom(0, NOW_MS / 1000)),
    bu: or(fc.constantFrom('Cel', 'K')),
    bv: or(fc.constantFrom(0, 10)),
    bver: or(fc.constantFrom(10, 11)),
    n: or(fc.constantFrom('heron', 'pi/wren', '')),
    t: or(fc.integer({ min: -60, max: 0 })),
    u: or(fc.constant('Cel')),
    v: or(fc.float({ min: -20, max: 120, noNaN: true })),
    vs: or(fc.constantFrom('not-connected', 'error-code: 7')),
    boot: or(fc.string({ maxLength: 70 })),
    seq: or(fc.nat()),
  },
  { requiredKeys: [] },
)

const isObject = (r: unknown) => typeof r === 'object' && r !== null && !Array.isArray(r)

// A field that RFC 8428 leaves open sends a record the long way, through the schema: the answer must be the same.
test('property: a pack is taken and refused alike, whether or not its records hold a field that nobody knows', () => {
  fc.assert(
    fc.property(fc.array(fc.oneof({ arbitrary: record, weight: 9 }, odd), { maxLength: 6 }), (pack) => {
      const withMore = pack.map((r) => (isObject(r) ? { ...(r as object), shelf: 'top' } : r))
      expect(decodeSenml(pack, NOW_MS)).toEqual(decodeSenml(withMore, NOW_MS))
    }),
    { numRuns: 500 },
  )
})

import { expect, test } from 'vitest'
import { findQuery } from '#core/wire/api-record'
import { FACET_KINDS as KNOWN } from '../../../server/store/look-up.ts'
import { FACET_KINDS } from '../../../web/state/facets.ts'
import { EMPTY_FIND, findOfFacet, findPath } from '../../../web/state/find-query.ts'

const asked = (path: string) => {
  const query = new URL(path, 'http://localhost').searchParams
  const plain = Object.fromEntries([...query.keys()].map((key) => [key, query.getAll(key)]))
  return findQuery.parse(
    Object.fromEntries(Object.entries(plain).map(([key, all]) => [key, all.length === 1 ? all[0] : all])),
  )
}

test('the page offers the facets that the server knows', () => {
  expect([...FACET_KINDS].sort()).toEqual([...KNOWN].sort())
})

test('words, facets and days become a question that the server understands', () => {
  const draft = {
    ...EMPTY_FIND,
    text: ' rose ',
    facets: { probe: 'heron', lot: 'R & 11:b' },
    fromDay: '2026-03-03',
    toDay: '2026-03-03',
  }
  const query = asked(findPath(draft, 12))
  expect(query).toMatchObject({ text: 'rose', before: 12, facet: ['lot:R & 11:b', 'probe:heron'] })
  // One day is a whole one: midnight to midnight in the person's zone.
  expect((query.to ?? 0) - (query.from ?? 0)).toBe(86_400_000)
})

test('a facet in the address is looked for; one that isn’t known is left out', () => {
  expect(findOfFacet('probe:heron').facets).toEqual({ probe: 'heron' })
  expect(findOfFacet('colour:red')).toEqual(EMPTY_FIND)
})

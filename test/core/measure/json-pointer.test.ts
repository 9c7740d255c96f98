import { expect, test } from 'vitest'
import { atPointer } from '#core/measure/json-pointer'

// RFC 6901 §5, document and results to the letter.
const DOCUMENT: unknown = {
  foo: ['bar', 'baz'],
  '': 0,
  'a/b': 1,
  'c%d': 2,
  'e^f': 3,
  'g|h': 4,
  'i\\j': 5,
  'k"l': 6,
  ' ': 7,
  'm~n': 8,
}

test.each([
  ['', DOCUMENT],
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/foo/1', 'baz'],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
])('pointer "%s" finds what the standard says', (pointer, value) => {
  expect(atPointer(DOCUMENT, pointer)).toEqual(value)
})

test.each(['foo', '/foo/2', '/foo/01', '/foo/-', '/none/x', '/__proto__', '/constructor', '/foo/length'])(
  'pointer "%s" finds nothing',
  (pointer) => {
    expect(atPointer(DOCUMENT, pointer)).toBeUndefined()
  },
)

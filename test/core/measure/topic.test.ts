import { expect, test } from 'vitest'
import { topicMatches, wildcardLevel } from '#core/measure/topic'

// OASIS MQTT §4.7 and the examples of mqtt(7).
test.each(['a/b/c/d', '+/b/c/d', 'a/+/c/d', 'a/+/+/d', '+/+/+/+', '#', 'a/#', 'a/b/#', 'a/b/c/#', '+/b/c/#'])(
  '%s matches a/b/c/d',
  (filter) => {
    expect(topicMatches(filter, 'a/b/c/d')).toBe(true)
  },
)

test.each(['a/b/c', 'b/+/c/d', '+/+/+', 'a/b/c/d/e', 'a/b/c/d/+'])('%s does not match a/b/c/d', (filter) => {
  expect(topicMatches(filter, 'a/b/c/d')).toBe(false)
})

test.each([
  ['sport/#', 'sport', true],
  ['sport/+', 'sport/', true],
  ['sport/+', 'sport', false],
  ['+/+', '/finance', true],
  ['/+', '/finance', true],
  ['+', '/finance', false],
  ['#', '$SYS/load', false],
  ['+/load', '$SYS/load', false],
  ['$SYS/#', '$SYS/load', true],
])('%s on %s: %s', (filter, topic, is) => {
  expect(topicMatches(filter, topic)).toBe(is)
})

test('the level of the first wildcard is found', () => {
  expect(wildcardLevel('studio/+/temperature')).toBe(1)
  expect(wildcardLevel('studio/#')).toBe(1)
  expect(wildcardLevel('studio/wren')).toBeNull()
})

import { expect, test } from 'vitest'
import { english } from '../../web/view/words/english.ts'
import { programFiles, read } from './sources.ts'

/** Names of all words and of the groups that they stand in. */
const namesOf = (words: unknown): readonly string[] =>
  typeof words === 'object' && words !== null
    ? Object.entries(words).flatMap(([name, inside]) => [name].concat(namesOf(inside)))
    : []

/** Both catalogues name every word; what says it stands elsewhere. */
const isCatalogue = (file: string) => /^web\/view\/words\/(en|de)-/.test(file)

test('each word of the page is said somewhere', () => {
  const text = programFiles()
    .filter((file) => !isCatalogue(file))
    .map(read)
    .join('\n')
  const said = new Set(text.match(/[\w-]+/g))
  // A choice of nothing has no name.
  expect(namesOf(english).filter((name) => name !== '' && !said.has(name))).toEqual([])
})

import type { Language } from '../../state/language.ts'
import type { Catalogue } from './catalogue.ts'
import { english } from './english.ts'
import { german } from './german.ts'
import { pseudoWords } from './pseudo-words.ts'

/** `pseudo` shows at a glance which text bypasses the catalogue, and leaves room for longer languages. */
export function catalogueFor(language: Language): Catalogue {
  switch (language) {
    case 'en':
      return english
    case 'de':
      return german
    case 'pseudo':
      return pseudoWords(english)
    default:
      return language satisfies never
  }
}

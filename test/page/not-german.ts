import type { Page } from 'playwright-core'
import { english } from '../../web/view/words/english.ts'
import { german } from '../../web/view/words/german.ts'

/** Every plain text of a catalogue; sentences that are put together are looked for by their words. */
function textsOf(words: unknown): readonly string[] {
  if (typeof words === 'string') return [words]
  return typeof words === 'object' && words !== null ? Object.values(words).flatMap(textsOf) : []
}
const GERMAN_TEXTS = new Set(textsOf(german))
const ONLY_ENGLISH = new Set(
  textsOf(english).filter((text) => /[A-Za-z]{3}/.test(text) && !GERMAN_TEXTS.has(text)),
)

/** Words that no German sentence has. */
export const ENGLISH_WORDS = /\b(the|and|with|this|that|your|you|is|are|of|to|from|not|no|yet|on)\b/i
/** Names that people gave are theirs, in whatever language. */
const GIVEN_NAMES = [
  'Red on wool, two skeins',
  'Brick rose',
  'brick rose',
  'Marl, again',
  'Dye bath',
  'Alum mordant',
  'Root bath',
  'Cool in the bath',
  'madder root, ground',
  'English',
]

/** Texts as they are shown or read out, each once. */
export const shownTexts = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    const texts = new Set<string>()
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode())
      if (node.parentElement?.closest('script, style, noscript') === null)
        texts.add((node.textContent ?? '').trim())
    for (const element of document.querySelectorAll('[aria-label], [placeholder], [title]'))
      for (const name of ['aria-label', 'placeholder', 'title'])
        texts.add((element.getAttribute(name) ?? '').trim())
    return [...texts]
  })

const withoutNames = (text: string): string =>
  GIVEN_NAMES.reduce((rest, name) => rest.replaceAll(name, ''), text)

/** Texts of a German page that are English, or have a number with a point before its unit. */
export const notGerman = (texts: readonly string[]): readonly string[] =>
  texts
    .map(withoutNames)
    .filter(
      (text) =>
        ONLY_ENGLISH.has(text) ||
        ENGLISH_WORDS.test(text) ||
        /\d\.\d{1,2} ?(°|%|g\b|L\b|kg|kWh|W\b)/.test(text),
    )

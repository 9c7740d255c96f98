/** Languages that the page speaks; `pseudo` is English with every word marked, for testing translations. */
export type Language = 'en' | 'de' | 'pseudo'

/** What a person may choose; `as-device`: what their browser asks for. */
export type LanguageChoice = 'as-device' | Language

const SPOKEN: readonly Language[] = ['en', 'de']

/**
 * The language to speak. `deviceLanguages`: BCP 47 tags, the most wanted first (`navigator.languages`); the first one
 * that the page speaks is taken, English when it speaks none of them.
 */
export function languageFor(choice: LanguageChoice, deviceLanguages: readonly string[]): Language {
  if (choice !== 'as-device') return choice
  const wanted = deviceLanguages.map((tag) => tag.split('-')[0]!.toLowerCase())
  return wanted.flatMap((word) => SPOKEN.filter((language) => language === word))[0] ?? 'en'
}

/** The tag that numbers, dates and the core's sentences follow. English dates in the order day, month, year. */
export const LANGUAGE_TAGS: Readonly<Record<Language, string>> = {
  en: 'en-GB',
  de: 'de-DE',
  pseudo: 'en-GB',
}

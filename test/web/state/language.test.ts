import { expect, test } from 'vitest'
import { readSettings } from '../../../web/state/device-settings.ts'
import { languageFor } from '../../../web/state/language.ts'

test('the first language of the browser that the page speaks is taken, else English', () => {
  expect(languageFor('as-device', ['de-AT', 'en'])).toBe('de')
  expect(languageFor('as-device', ['fr', 'DE', 'en'])).toBe('de')
  expect(languageFor('as-device', ['en-US', 'de'])).toBe('en')
  expect(languageFor('as-device', ['fr-FR', 'da'])).toBe('en')
  expect(languageFor('as-device', [])).toBe('en')
})

test('what the person chose counts more than the browser', () => {
  expect(languageFor('en', ['de'])).toBe('en')
  expect(languageFor('de', ['en'])).toBe('de')
})

test('a language that is not known is read as the browser’s', () => {
  expect(readSettings('{"language":"kl"}').language).toBe('as-device')
  expect(readSettings('{"language":"de"}').language).toBe('de')
  expect(readSettings(null).language).toBe('as-device')
})

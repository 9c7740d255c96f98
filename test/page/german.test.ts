import type { Browser, Page } from 'playwright-core'
import type { AlarmMessage } from '#core/wire/live'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { english } from '../../web/view/words/english.ts'
import { german } from '../../web/view/words/german.ts'
import { PAGES } from './all-pages.ts'
import { openBrowser, openPage } from './browser.ts'
import { seriousFaults } from './serious-faults.ts'
import { type PageServer, startPageServer } from '../kit/page-server.ts'
import { madeUpAlarm } from '../kit/page-stove.ts'
import { buildProgram } from '../kit/program.ts'

let browser: Browser
let server: PageServer

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
  server = await startPageServer(6)
  server.alarm(alarmWithFacts(Date.now()))
})
afterAll(async () => {
  await browser.close()
  await server.close()
})

/** As the real server sends it: with the facts that each page words for its own person. */
const alarmWithFacts = (nowMs: number): AlarmMessage => ({
  ...madeUpAlarm('otter', 5, nowMs),
  facts: {
    kind: 'alarm',
    alarm: 'above-ceiling',
    change: 'raised',
    atMs: nowMs,
    sinceMs: nowMs - 60_000,
    potId: 'otter',
    stageId: 'dye',
    urgency: 'at-once',
    tempC: 77.3,
    limitC: 76,
    rateCPerMin: 0.5,
    lastReadingMs: nowMs,
    peakC: 77.3,
    expectedMs: null,
    dial: 7.5,
    potIds: ['otter'],
    reason: 'burner-up',
  },
})

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
const ENGLISH_WORDS = /\b(the|and|with|this|that|your|you|is|are|of|to|from|not|no|yet|on)\b/i
/** Names that people gave are theirs, in whatever language. */
const GIVEN_NAMES = [
  'Red on wool, two skeins',
  'Alum mordant',
  'Root bath',
  'Cool in the bath',
  'madder root, ground',
  'English',
]

/** Texts as they are shown or read out, each once. */
const shownTexts = (page: Page): Promise<readonly string[]> =>
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

test.each([
  { width: 1280, colorScheme: 'light' },
  { width: 390, colorScheme: 'dark' },
  { width: 320, colorScheme: 'light' },
] as const)(
  'at $width px a German browser gets every page in German, whole and for everybody',
  async (look) => {
    const { width, colorScheme } = look
    for (const path of PAGES) {
      const { page, complaints } = await openPage(browser, `${server.url}/${path}`, {
        viewport: { width, height: 800 },
        colorScheme,
        locale: 'de-AT',
      })
      await page.locator('h1').first().waitFor({ state: 'attached' })
      await page.waitForLoadState('networkidle').catch(() => undefined)
      expect(await page.locator('html').getAttribute('lang')).toBe('de')
      const texts = await shownTexts(page)
      const strange = texts
        .map(withoutNames)
        .filter((text) => ONLY_ENGLISH.has(text) || ENGLISH_WORDS.test(text))
      expect.soft({ path, strange }).toEqual({ path, strange: [] })
      const points = texts.filter((text) => /\d\.\d{1,2} ?(°|%|g\b|L\b|kg|kWh|W\b)/.test(text))
      expect.soft({ path, points }).toEqual({ path, points: [] })
      expect(await seriousFaults(page), `${path} at ${width}`).toEqual([])
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
      expect(over, `${path} is wider than ${width} px`).toBeLessThanOrEqual(0)
      expect({ path, complaints }).toEqual({ path, complaints: [] })
      await page.context().close()
    }
  },
)

test('the language is the person’s choice, apart from the browser’s and from the temperature unit', async () => {
  const { page } = await openPage(browser, `${server.url}/#/settings`, { locale: 'en-US' })
  await page.locator('label', { hasText: 'Deutsch' }).click()
  await page.locator('h1', { hasText: german.shell.settingsTitle }).waitFor()
  await page.locator('label', { hasText: '°F' }).click()
  await page.goto(`${server.url}/#/`)
  await page.reload()
  expect(await page.locator('html').getAttribute('lang')).toBe('de')
  const digits = page.locator('.digits').first()
  await digits.waitFor()
  // The made-up baths hold between 15 and 100 °C, which is 59 to 212 °F.
  expect(await digits.textContent()).toMatch(/^\d{2,3},\d$/)
  expect(await page.locator('.pot-card').first().textContent()).toContain('°F')
  expect(await page.title()).toContain('⚠')
  expect(await page.title()).not.toMatch(ENGLISH_WORDS)
})

test('a number typed with a comma is taken, and a plan shows its numbers with one', async () => {
  const { page } = await openPage(browser, `${server.url}/#/plans/1`, { locale: 'de-DE' })
  const rate = page.getByLabel(german.plan.numbers.maxHeating).first()
  await rate.waitFor()
  expect(await rate.inputValue()).toBe('1,5')
  const ceiling = page.getByLabel(german.plan.numbers.ceiling, { exact: true }).first()
  await ceiling.fill('88,5')
  await page.getByRole('button', { name: german.plan.save }).click()
  await page.waitForTimeout(200)
  expect(await page.locator('.field-error').count()).toBe(0)
})

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { startPageServer } from '../kit/page-server.ts'
import { buildProgram } from '../kit/program.ts'
import { alarmWithFacts } from './alarm-with-facts.ts'
import { PAGES } from './all-pages.ts'
import { openBrowser, openPage } from './browser.ts'
import { notGerman, shownTexts } from './not-german.ts'
import { seriousFaults } from './serious-faults.ts'
import { wholeStudio } from './whole-studio.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

const LOOKS = [
  { width: 1280, colorScheme: 'light' },
  { width: 390, colorScheme: 'dark' },
  { width: 320, colorScheme: 'light' },
] as const
type Look = (typeof LOOKS)[number]

/** Goes from page to page in one window, and looks at each when it stands: what is wrong, in words. */
async function walk(
  url: string,
  pages: readonly string[],
  look: Look,
  language: 'en' | 'de',
): Promise<readonly string[]> {
  const { width, colorScheme } = look
  const { page, settled, complaints, strangers } = await openPage(browser, `${url}/${pages[0]}`, {
    viewport: { width, height: 800 },
    colorScheme,
    locale: language === 'de' ? 'de-AT' : 'en-GB',
  })
  const wrong: string[] = []
  for (const path of pages) {
    await page.goto(`${url}/${path}`)
    await settled()
    const found = [...(await seriousFaults(page))]
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    if (tooWide > 0) found.push(`${tooWide} px too wide`)
    const lang = await page.locator('html').getAttribute('lang')
    if (lang !== language) found.push(`its language is ${lang}`)
    if (language === 'de') found.push(...notGerman(await shownTexts(page)))
    wrong.push(...found.map((fault) => `${path} at ${width} px: ${fault}`))
  }
  return [...wrong, ...complaints, ...strangers]
}

async function walkAll(url: string, pages: readonly string[], language: 'en' | 'de') {
  const walks = await Promise.all(LOOKS.map((look) => walk(url, pages, look, language)))
  return walks.flat()
}

test.each(['en', 'de'] as const)(
  'in %s, wide and narrow, light and dark, every page keeps nobody out, and nothing runs over or speaks otherwise',
  async (language) => {
    const { server, pages } = await wholeStudio()
    expect(await walkAll(server.url, pages, language)).toEqual([])
  },
)

test.each(['en', 'de'] as const)(
  'in %s so do six pots in every state, one of them calling',
  async (language) => {
    const server = await startPageServer(6)
    onTestFinished(() => server.close())
    server.alarm(alarmWithFacts(Date.now()))
    expect(await walkAll(server.url, PAGES, language)).toEqual([])
  },
)

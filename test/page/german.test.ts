import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { german } from '../../web/view/words/german.ts'
import { openBrowser, openPage } from './browser.ts'
import { ENGLISH_WORDS } from './not-german.ts'
import { type PageServer, startPageServer } from '../kit/page-server.ts'
import { alarmWithFacts } from './alarm-with-facts.ts'
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

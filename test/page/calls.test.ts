import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { openBrowser, openPage } from './browser.ts'
import { type PageServer, startPageServer } from '../kit/page-server.ts'
import { madeUpAlarm, madeUpNotice } from '../kit/page-stove.ts'
import { buildProgram } from '../kit/program.ts'
import { watchSlowness } from '../kit/slowness.ts'

let browser: Browser
let server: PageServer

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())
beforeEach(async () => {
  server = await startPageServer(6)
})
afterEach(() => server.close())

const soundSwitch = '.top-bar .sound-switch'

test('sound is off and says so until a person taps it; then an alarm sounds, and the tab shows it', async () => {
  const { page, sounding } = await openPage(browser, server.url)
  await page.getByText('Sound is off, tap to switch on').waitFor()
  server.alarm(madeUpAlarm('otter', 5, Date.now()))
  await page.locator('.pot-card.at-once').waitFor()
  expect(await sounding()).toBe(0)
  await page.click(soundSwitch)
  await page.getByText('Sound is on').waitFor()
  await expect.poll(sounding).toBe(1)
  expect(await page.title()).toMatch(/^⚠ Otter/)
  expect(await page.locator('link[rel=icon]').getAttribute('href')).toBe('/icon-at-once.svg')
  expect(await page.locator('[role=alert]').first().textContent()).toContain('over its ceiling')
})

test('the alarm goes on until somebody says that they are there, on any page', async () => {
  const kitchen = await openPage(browser, server.url)
  const bed = await openPage(browser, `${server.url}/#/night`)
  await kitchen.page.click(soundSwitch)
  await bed.page.click('.night-head .sound-switch')
  server.alarm(madeUpAlarm('otter', 5, Date.now()))
  await expect.poll(kitchen.sounding).toBe(1)
  await expect.poll(bed.sounding).toBe(1)
  await bed.page.waitForTimeout(2_500)
  expect(await bed.sounding()).toBe(1)
  await kitchen.page.getByRole('button', { name: 'I’m there' }).click()
  await expect.poll(kitchen.sounding).toBe(0)
  await expect.poll(bed.sounding).toBe(0)
  expect(server.asks).toContain('acknowledge 5')
  expect(await kitchen.page.title()).not.toContain('⚠')
})

test('a stuck server is noticed within 6 s, the page shouts by itself, and heals', async () => {
  const { page, sounding } = await openPage(browser, server.url)
  await page.click(soundSwitch)
  await page.locator('.reading-fresh').first().waitFor()
  server.pulse(false)
  const slowness = watchSlowness()
  const fromMs = performance.now()
  await page.locator('.silence-frame').waitFor()
  expect(performance.now() - fromMs).toBeLessThan(6_500 * slowness())
  await expect.poll(sounding).toBe(1)
  expect(await page.locator('.reading-fresh').count()).toBe(0)
  await page.getByRole('button', { name: /stop the sound/ }).click()
  await expect.poll(sounding).toBe(0)
  await expect.poll(() => page.locator('.silence-frame').count()).toBe(1)
  server.pulse(true)
  await page.locator('.silence-frame').waitFor({ state: 'detached' })
  await page.locator('.reading-fresh').first().waitFor()
})

test('a silent probe never looks like a good bath', async () => {
  const { page } = await openPage(browser, server.url)
  const card = page.getByRole('article', { name: 'Curlew' })
  await card.getByText('No reading for 4 min').waitFor()
  expect(await card.locator('.standing-in-window').count()).toBe(0)
  await expect.poll(() => card.locator('.reading-stale').count()).toBe(1)
})

test('what a dyer waits for is one bell and stands in the list', async () => {
  const { page, begun } = await openPage(browser, server.url)
  await page.click(soundSwitch)
  await page.getByText('Sound is on').waitFor()
  server.notice(madeUpNotice('heron', 3, Date.now()))
  await page.getByText('Heron: turn the goods, gently.').waitFor()
  await expect.poll(begun).toBe(1)
})

test('everything can be done with the keyboard alone', async () => {
  const { page, sounding } = await openPage(browser, server.url)
  await page.locator('.pot-card').first().waitFor()
  await page.locator('body').press('Tab')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('To the content')
  const press = async (name: RegExp) => {
    for (let i = 0; i < 80; i += 1) {
      const label = await page.evaluate(() => {
        const active = document.activeElement
        return active?.getAttribute('aria-label') ?? active?.textContent ?? ''
      })
      if (name.test(label)) return page.keyboard.press('Enter')
      await page.keyboard.press('Tab')
    }
    throw new Error(`no stop of the Tab key is called ${String(name)}`)
  }
  await press(/Sound is off/)
  await page.getByText('Sound is on').waitFor()
  await press(/Note what you did at Heron/)
  await press(/^Dial/)
  await press(/^7$/)
  await page.getByText(/Noted Dial to 7 at/).waitFor()
  await page.keyboard.press('Escape')
  server.alarm(madeUpAlarm('otter', 5, Date.now()))
  await expect.poll(sounding).toBe(1)
  await press(/I’m there/)
  await expect.poll(sounding).toBe(0)
})

test('the bedtime test sounds until it is heard and says who would hear an alarm', async () => {
  const { page, sounding } = await openPage(browser, `${server.url}/#/night`)
  await page.getByRole('button', { name: 'Test the alarm' }).click()
  await page.getByText('Can you hear it from your bed?').waitFor()
  await expect.poll(sounding).toBe(1)
  await page.locator('.test-alarm', { hasText: 'would sound an alarm now' }).waitFor()
  await page.getByRole('button', { name: 'I heard it' }).click()
  await expect.poll(sounding).toBe(0)
  await page.getByText(/Test alarm heard at/).waitFor()
})

test('a page that was away is told what it missed, once', async () => {
  const { page } = await openPage(browser, server.url)
  await page.locator('.pot-card').first().waitFor()
  server.notice(madeUpNotice('heron', 3, Date.now()))
  await page.getByText('Heron: turn the goods, gently.').waitFor()
  await expect.poll(() => server.asks.some((ask) => ask.startsWith('seen 3'))).toBe(true)
  await page.reload()
  await page.locator('.pot-card').first().waitFor()
  await expect.poll(() => server.lastIds.at(-1)).toBe(3)
})

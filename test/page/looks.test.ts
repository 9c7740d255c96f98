import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openBrowser, openPage } from './browser.ts'
import { type PageServer, startPageServer } from '../kit/page-server.ts'
import { madeUpAlarm } from '../kit/page-stove.ts'
import { buildProgram } from '../kit/program.ts'

let browser: Browser
let server: PageServer

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
  server = await startPageServer(6)
  server.alarm(madeUpAlarm('otter', 5, Date.now()))
})
afterAll(async () => {
  await browser.close()
  await server.close()
})

test('six pots fit on a laptop’s screen, and one fills it', async () => {
  const { page } = await openPage(browser, server.url)
  const cards = page.locator('.pot-card')
  await cards.nth(5).waitFor()
  const boxes = await Promise.all([0, 1, 2, 3, 4, 5].map((i) => cards.nth(i).boundingBox()))
  for (const box of boxes) expect((box?.y ?? 0) + (box?.height ?? 9999)).toBeLessThanOrEqual(800)
  const digits = await page
    .locator('.digits')
    .first()
    .evaluate((e) => parseFloat(getComputedStyle(e).fontSize))
  expect(digits).toBeGreaterThanOrEqual(90)
  await page.goto(`${server.url}/#/pots/wren`)
  const large = page.locator('.pot-whole .digits')
  await large.waitFor()
  expect(await large.evaluate((e) => parseFloat(getComputedStyle(e).fontSize))).toBeGreaterThan(170)
})

test('on a phone the answer to an alarm is seen without scrolling', async () => {
  const { page } = await openPage(browser, `${server.url}/#/pots/otter`, {
    viewport: { width: 390, height: 844 },
  })
  const answer = page.getByRole('button', { name: 'I’m there' })
  await answer.waitFor()
  const box = await answer.boundingBox()
  expect((box?.y ?? 0) + (box?.height ?? 9999)).toBeLessThan(844)
})

test('on the narrowest phone the answer to an alarm covers none of its words', async () => {
  const { page } = await openPage(browser, server.url, { viewport: { width: 320, height: 800 } })
  const line = page.locator('.alarm-line').first()
  await line.waitFor()
  const words = await line.locator('strong').boundingBox()
  const answer = await line.getByRole('button', { name: 'I’m there' }).boundingBox()
  expect(answer?.y ?? 0).toBeGreaterThanOrEqual((words?.y ?? 0) + (words?.height ?? 9999))
  expect((answer?.x ?? 0) + (answer?.width ?? 999)).toBeLessThanOrEqual(320)
})

test('on a phone what a stage can do without is folded, and the ceiling is not', async () => {
  const { page } = await openPage(browser, `${server.url}/#/plans/new`, {
    viewport: { width: 390, height: 844 },
  })
  await page.getByLabel('Ceiling').waitFor()
  expect(await page.getByLabel('Turn the goods every').isVisible()).toBe(false)
  await page.getByText('More, if you like').click()
  await page.getByLabel('Turn the goods every').fill('10')
  await page.getByText('More, 1 filled in').waitFor()
  await page.setViewportSize({ width: 1280, height: 800 })
  await page.reload()
  await page.getByLabel('Turn the goods every').waitFor()
})

test('a table that scrolls does not widen the page with what is hidden in its cells', async () => {
  const { page } = await openPage(browser, server.url, { viewport: { width: 320, height: 800 } })
  await page.locator('main').waitFor()
  const over = await page.evaluate(() => {
    // Words that don't break: the content policy of the page refuses a width in a style attribute.
    const cells = `<td>${'wide'.repeat(60)}</td><td><span class="visually-hidden">told</span></td>`
    const table = `<div class="scroll-x"><table><tbody><tr>${cells}</tr></tbody></table></div>`
    document.querySelector('main')?.insertAdjacentHTML('beforeend', table)
    return document.documentElement.scrollWidth - innerWidth
  })
  expect(over).toBeLessThanOrEqual(0)
})

test('targets for wet hands are at least 48 px high and wide', async () => {
  for (const path of ['#/', '#/pots/heron', '#/night', '#/plans/1', '#/pots/heron/what-if']) {
    const { page } = await openPage(browser, `${server.url}/${path}`, {
      viewport: { width: 390, height: 844 },
    })
    await page.locator('.button').first().waitFor()
    const small = await page.locator('button, select, input, nav a').evaluateAll((all) =>
      all
        .map((e) => ({
          text: (e.textContent ?? '').slice(0, 30),
          box: e.getBoundingClientRect(),
          type: e.getAttribute('type'),
        }))
        .filter(
          ({ box, type }) =>
            type !== 'checkbox' && type !== 'radio' && box.width > 0 && (box.height < 47.5 || box.width < 38),
        )
        .map(({ text, box }) => `${text} ${box.width}×${box.height}`),
    )
    expect({ path, small }).toEqual({ path, small: [] })
    await page.context().close()
  }
})

test('in the pseudo language no text of the page bypasses the catalogue', async () => {
  const { page } = await openPage(browser, `${server.url}/#/settings`)
  // Nobody is offered it; it is set where the device keeps its choices.
  expect(await page.locator('label', { hasText: 'for testing translations' }).count()).toBe(0)
  await page.evaluate(() => localStorage.setItem('holdfast.settings', JSON.stringify({ language: 'pseudo' })))
  await page.reload()
  await page.locator('h1', { hasText: '[' }).waitFor()
  for (const path of ['#/settings', '#/', '#/batches', '#/plans/new', '#/probes', '#/night'].concat([
    '#/pots/heron/burner',
    '#/pots/heron/what-if',
    '#/pots/heron/evening',
  ])) {
    await page.goto(`${server.url}/${path}`)
    await page.locator('h1').first().waitFor({ state: 'attached' })
    await page.waitForTimeout(400)
    const plain = await page
      .locator('button, label, h1, legend, nav a')
      .evaluateAll((all) =>
        all
          .map((e) => (e.textContent ?? '').trim())
          .filter((text) => /[A-Za-z]{3}/.test(text) && !/[[\]·]/.test(text)),
      )
    expect({ path, plain }).toEqual({ path, plain: [] })
  }
})

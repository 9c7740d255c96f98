import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import type { AlarmName } from '#core/plan/alarm-names'
import { startPageServer } from '../kit/page-server.ts'
import { madeUpAlarm } from '../kit/page-stove.ts'
import { buildProgram } from '../kit/program.ts'
import { openBrowser, openPage } from './browser.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

const DRIFT: readonly AlarmName[] = ['heading-above-window', 'above-window', 'above-ceiling']

/** A studio where each of these pots has drifted out of its window by three alarms. */
async function drifting(potCount: number, pots: readonly string[]) {
  const server = await startPageServer(potCount)
  onTestFinished(() => server.close())
  pots.forEach((pot, no) =>
    DRIFT.forEach((alarm, step) =>
      server.alarm({
        ...madeUpAlarm(pot, 10 * (no + 1) + step, Date.now()),
        alarm,
        urgency: alarm === 'above-ceiling' ? 'at-once' : 'soon',
      }),
    ),
  )
  return server
}

/** How much of the first such element can be seen without scrolling, px. */
async function seenPx(page: Page, selector: string, heightPx: number): Promise<number> {
  const box = await page.locator(selector).first().boundingBox()
  return box === null ? 0 : Math.min(heightPx, box.y + box.height) - Math.max(0, box.y)
}

const LAPTOP = { width: 1280, height: 800 }
const PHONE = { width: 390, height: 844 }

test.each([
  { pots: 1, screen: LAPTOP, least: 150 },
  { pots: 3, screen: LAPTOP, least: 110 },
  { pots: 6, screen: LAPTOP, least: 48 },
  { pots: 1, screen: PHONE, least: 100 },
  { pots: 3, screen: PHONE, least: 100 },
  { pots: 6, screen: PHONE, least: 100 },
])('with $pots pots at $screen.width px the trace is seen while an alarm stands', async (look) => {
  const server = await drifting(look.pots, ['wren'])
  const { page } = await openPage(browser, server.url, { viewport: look.screen })
  await page.getByRole('button', { name: 'I’m there' }).first().waitFor()
  expect(await seenPx(page, '.asking .trace', look.screen.height)).toBeGreaterThanOrEqual(look.least)
  expect(await seenPx(page, '.asking .answer', look.screen.height)).toBeGreaterThanOrEqual(47)
})

test('a pot that drifts off says one thing, and one answer answers all of it', async () => {
  const server = await drifting(3, ['wren'])
  const { page } = await openPage(browser, server.url)
  const card = page.locator('.pot-card.asking')
  await card.getByText('At once: over the ceiling.').waitFor()
  await expect.poll(() => page.locator('.alarm').count()).toBe(1)
  await card.getByRole('button', { name: 'and 2 more' }).click()
  await expect.poll(() => page.locator('dialog .alarm-text').count()).toBe(3)
  await page.keyboard.press('Escape')
  await page.locator('dialog').waitFor({ state: 'detached' })
  await card.getByRole('button', { name: 'I’m there, at Wren' }).click()
  await expect
    .poll(() => server.asks.filter((ask) => ask.startsWith('acknowledge')), { timeout: 60_000 })
    .toHaveLength(3)
  await card.getByRole('button', { name: 'I’m there' }).waitFor({ state: 'detached' })
})

test.each([LAPTOP, PHONE])('on other pages the strip leaves three quarters of $width px', async (screen) => {
  const server = await drifting(6, ['wren', 'heron', 'otter', 'teal', 'curlew'])
  const { page } = await openPage(browser, `${server.url}/#/batches`, { viewport: screen })
  const strips = page.locator('.strips')
  await strips.getByText('3 more pots ask for you.').waitFor()
  await expect.poll(() => strips.getByRole('button', { name: 'I’m there' }).count()).toBe(2)
  expect((await strips.boundingBox())?.height).toBeLessThanOrEqual(screen.height / 4)
})

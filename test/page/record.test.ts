import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { buildProgram } from '../kit/program.ts'
import { openBrowser, openPage } from './browser.ts'
import { bathPlan, coolingDown, marchLot, planOf, ranBatch, upTo, weighing } from './earlier-batches.ts'
import { pageStudio } from './page-studio.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name })
const link = (page: Page, name: string | RegExp) => page.getByRole('link', { name })
const part = (page: Page, name: string) => page.getByRole('region', { name, exact: true })
const row = (page: Page, name: string) =>
  page.getByRole('row').filter({ has: page.getByRole('rowheader', { name, exact: true }) })

test('a shade is repeated for other goods, and what differs today stands there before the heat is on', async () => {
  const server = await pageStudio(Date.UTC(2026, 3, 23, 9))
  await marchLot(server)
  const lot = { material: 'madder root, ground', lot: 'R-14', receivedG: 900 }
  await server.ask('POST', '/api/stock', lot)
  const { page, complaints } = await openPage(browser, `${server.url}/#/batches`)
  await page.getByLabel('Words in title, plan, additives or record').fill('bric')
  await link(page, 'Marl, brick rose').click()
  await link(page, 'Repeat this shade').click()
  await page.getByLabel('Dry weight now').fill('650')
  await button(page, 'Make the batch').click()
  await page.getByText('Known then, not written down for today yet:').waitFor()
  await link(page, 'Weigh out').click()
  // 650 g × 40 % = 260 g; × 1.5 % = 9.75 g, on a scale of 0.1 g 9.8; 25:1 → 16.25 L. Reckoned by hand.
  const bath = part(page, 'Dye bath')
  await bath.getByText('260.0').waitFor()
  await bath.getByText('9.8', { exact: false }).first().waitFor()
  await bath.getByText('Water: 16.3 L').waitFor()
  await page.getByLabel('Weighed: madder root, ground').fill('260')
  await button(page, 'Put down madder root, ground').click()
  await bath.getByText('260 g in the record').waitFor()
  await link(page, 'The record').click()
  await button(page, 'Add: Water').click()
  await part(page, 'Water').getByLabel('Where from').fill('tap')
  await part(page, 'Water').getByLabel('pH').fill('7,9')
  await part(page, 'Water').getByLabel('Hardness, mg/L as CaCO₃').fill('180')
  await part(page, 'Water').getByRole('button', { name: 'Write down' }).click()
  await part(page, 'Water').getByText('tap').waitFor()
  await link(page, 'Back to the batch').click()
  await link(page, 'What differs today').click()
  // What a locator lists at once it does not wait for.
  await row(page, 'Lot: madder root, ground').waitFor()
  expect(await row(page, 'Lot: madder root, ground').getByRole('cell').allTextContents()).toEqual([
    'R-11',
    'R-14',
  ])
  expect(await row(page, 'Water').getByRole('cell').allTextContents()).toEqual(['rain', 'tap'])
  expect(await row(page, 'pH of the water').getByRole('cell').allTextContents()).toEqual(['6.5', '7.9'])
  await page.getByText('dye a small test piece first').waitFor()
  expect(complaints).toEqual([])
})

test('two batches lie over one another, the differences are ranked and no cause is named', async () => {
  const server = await pageStudio(Date.UTC(2026, 6, 1, 9))
  const planId = await planOf(server, bathPlan('Weld yellow', 'linen', 'weld, dried', 60, 1))
  await ranBatch(server, 'Fen, April', {
    planId,
    dryWeightG: 800,
    startMs: Date.UTC(2026, 3, 8, 9),
    tempsC: upTo(20, 79, 51, 96),
    entries: [weighing('weld, dried', 480, 'W-25'), weighing('chalk', 8)],
  })
  await ranBatch(server, 'Fen, June', {
    planId,
    dryWeightG: 800,
    startMs: Date.UTC(2026, 5, 9, 9),
    tempsC: [...upTo(20, 79, 22, 67), ...coolingDown(79, 593)],
    coolsAtMin: 68,
    entries: [
      weighing('weld, dried', 480, 'W-25'),
      weighing('chalk', 0),
      ['equipment', { probePlace: 'clipped near the top' }],
      ['check', { stageId: 'dye', place: 'bottom', tempC: 86 }],
    ],
  })
  const { page, complaints } = await openPage(browser, `${server.url}/#/batches`)
  await page.getByText('Narrow it down').click()
  await page.getByLabel('Dye or mordant').selectOption({ label: 'weld, dried (2)' })
  await page.getByLabel('Compare Fen, April').check()
  await page.getByLabel('Compare Fen, June').check()
  await link(page, 'Compare 2').click()
  await page.getByRole('img', { name: /Temperature traces/ }).waitFor()
  await expect.poll(() => page.locator('.compare-picture .compare-line').count()).toBe(2)
  await page.locator('.differences tbody th').first().waitFor()
  const names = await page.locator('.differences tbody th').allTextContents()
  // No chalk, left in for hours, over the ceiling by hand, a faster heat-up: all of the story's candidates are there.
  for (const wanted of [
    'Amount: chalk',
    'Stayed in the bath',
    'Checked by hand, over the ceiling',
    'Heat-up',
  ])
    expect(names).toContain(wanted)
  expect(names[0]).toBe('Amount: chalk')
  await page.getByText('No cause is named').waitFor()
  expect(await page.getByText(/because|caused by|the reason is/i).count()).toBe(0)
  expect(complaints).toEqual([])
})

test('a class of six pots is under way from one template in under a minute', async () => {
  const server = await pageStudio(Date.UTC(2026, 4, 12, 8))
  await planOf(server, bathPlan('Class bath', 'wool', 'madder root, ground', 40, 1))
  for (const title of ['One', 'Two', 'Three', 'Four', 'Five', 'Six'])
    await server.ask('POST', '/api/pots', { title, vessel: { litres: 8, burner: { dialMax: 6 } } })
  const { page, complaints } = await openPage(browser, `${server.url}/#/class`)
  const beganMs = performance.now()
  await page.getByLabel('Name of the class').fill('School, May')
  await page.getByLabel('Dry weight in each pot').fill('120')
  await button(page, 'Make 6 batches').click()
  await button(page, 'Begin all').click()
  await expect.poll(() => page.getByText('under way').count()).toBe(6)
  expect(performance.now() - beganMs).toBeLessThan(60_000)
  await page.getByLabel('First names on the page, if you like').fill('Ash, Bryn')
  const opened = page.context().waitForEvent('page')
  await link(page, 'Page of two').click()
  const paper = await opened
  await paper.getByText('Ash').first().waitFor()
  await link(page, 'To the stove').click()
  await expect.poll(() => page.locator('.pot-card').count()).toBe(6)
  expect(complaints).toEqual([])
})

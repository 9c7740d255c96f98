import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { ALUM_STAGE } from '../kit/alum-stage.ts'
import { buildProgram } from '../kit/program.ts'
import { openBrowser, openPage } from './browser.ts'
import { pageStudio } from './page-studio.ts'
import { seriousFaults } from './serious-faults.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name })
const link = (page: Page, name: string | RegExp) => page.getByRole('link', { name })
const part = (page: Page, name: string) => page.getByRole('region', { name, exact: true })

const ALUM = {
  title: 'Alum on wool',
  fibre: 'wool',
  stages: [ALUM_STAGE],
}

test('another lot is put into a bath on the page: weighed for together, and a tag that names it alone', async () => {
  const server = await pageStudio(Date.UTC(2026, 2, 3, 8))
  const plan = (await server.ask('POST', '/api/plans', ALUM)).body
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel: { litres: 25, burner: { dialMax: 6 } } })
  // 60 g on the shelf, where 400 g of wool need 48 g and 850 g need 102 g.
  await server.ask('POST', '/api/stock', { material: 'potassium alum', lot: 'A-3', receivedG: 60 })
  const { page, complaints } = await openPage(browser, `${server.url}/#/start/${plan.id}`)
  await page.getByLabel('Name of the batch').fill('Marl, Ash')
  await page.getByLabel('Dry weight of the goods').fill('850')
  await page.getByText('Not enough on the shelf').waitFor()
  await page.getByLabel('Dry weight of the goods').fill('400')
  await expect.poll(() => page.getByText('Not enough on the shelf').count()).toBe(0)
  await page.getByLabel('Pot', { exact: true }).selectOption('heron')
  await button(page, 'Start on this pot').click()
  await page.waitForURL(/pots\/heron/)
  await page.goto(`${server.url}/#/batches/1`)
  await page.getByText('Another lot in this bath').click()
  await page.getByLabel('Name of the lot').fill('Marl, Bryn')
  await page.getByLabel('Dry weight of the goods').fill('450')
  await page.getByLabel('Owner or order').fill('Bryn')
  await button(page, 'Put it in').click()
  const lots = part(page, 'Lots in this bath').first()
  await lots.getByText('850 g').waitFor()
  await link(page, 'Marl, Bryn').click()
  await page.getByRole('heading', { name: 'Marl, Bryn' }).waitFor()
  await link(page, 'Weigh out').click()
  // 12 % of 400 g + 450 g.
  await part(page, 'Alum mordant').getByText('102.0').waitFor()
  await page.getByText('Not enough on the shelf').waitFor()
  for (const path of ['batches/1', 'batches/2', 'weigh/2', `plans/${plan.id}`, `start/${plan.id}`]) {
    await page.setViewportSize({ width: 320, height: 800 })
    await page.goto(`${server.url}/#/${path}`)
    await page.locator('h1').first().waitFor({ state: 'attached' })
    await page.waitForLoadState('networkidle').catch(() => undefined)
    expect({ path, faults: await seriousFaults(page) }).toEqual({ path, faults: [] })
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    expect({ path, isTooWide: over > 0 }).toEqual({ path, isTooWide: false })
  }
  const tag = (await server.ask('GET', '/api/batches/2/tag')).body as string
  expect(tag).toContain('Marl, Bryn')
  expect(tag).not.toContain('Ash')
  expect(complaints).toEqual([])
})

test('a plan that is read in °F and saved with its pH and an alarm of its own keeps its temperatures', async () => {
  const server = await pageStudio(Date.UTC(2026, 2, 3, 8))
  // 83.3 °C is 181.94 °F: shown with two decimals, it would come back as another number.
  const odd = {
    ...ALUM,
    stages: ALUM.stages.map((stage) => Object.assign({}, stage, { windowC: [80.1, 83.33] })),
  }
  const { id } = (await server.ask('POST', '/api/plans', odd)).body
  const { page, complaints } = await openPage(browser, `${server.url}/#/settings`)
  await page.getByText('°F', { exact: true }).click()
  await page.goto(`${server.url}/#/plans/${id}`)
  await page.getByLabel('pH from').fill('5')
  await page.getByLabel('pH to').fill('6,5')
  await page.getByLabel('Cautions of your own').fill('Lift with two people.')
  await page.getByText('Alarms of this plan').click()
  await page.getByLabel('Set another alarm').selectOption('below-window')
  await page.getByLabel('Must clear by').fill('1.8')
  await button(page, 'Save the plan').click()
  await page.getByText('Saved.', { exact: true }).waitFor()
  const { plan } = (await server.ask('GET', `/api/plans/${id}`)).body
  expect(plan.stages[0]).toMatchObject({
    windowC: [80.1, 83.33],
    phRange: [5, 6.5],
    cautions: ['Lift with two people.'],
  })
  // A deadband is a difference: 1.8 °F are 1 °C.
  expect(plan.alarms).toEqual({ 'below-window': { deadbandC: 1 } })
  expect(complaints).toEqual([])
})

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { startPageServer } from '../kit/page-server.ts'
import { buildProgram } from '../kit/program.ts'
import { openBrowser, openPage } from './browser.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

async function probesPage() {
  const server = await startPageServer(6)
  onTestFinished(() => server.close())
  const { page } = await openPage(browser, `${server.url}/#/probes`)
  /** Three minutes of the silent probe's readings, by their own times and all at once. */
  const stands = (rawC: number) => {
    const fromMs = Date.now() + 1000
    for (let s = 0; s <= 180; s += 2)
      server.reading({ probe: 'probe-5', atMs: fromMs + s * 1000, tempC: rawC, rawC, verdict: 'good' })
  }
  const kept = async () => (await fetch(`${server.url}/api/probes/probe-5/corrections`)).json()
  return { page, stands, kept }
}

test('ice water and boiling point become a correction with both readings of each check', async () => {
  const { page, stands, kept } = await probesPage()
  await page.getByRole('button', { name: 'Check probe-5' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByRole('button', { name: 'The probe is in: begin' }).click()
  await sheet.getByText('Waiting for readings of this probe.').waitFor()
  stands(0.5)
  await sheet.getByText('Settled: it says 0.5 °C where 0.0 °C is right.').waitFor()
  await sheet.getByText('Boiling water', { exact: true }).click()
  await sheet.getByRole('button', { name: 'The probe is in: begin' }).click()
  await sheet.getByText('Waiting for readings of this probe.').waitFor()
  stands(99.5)
  await sheet.getByText('Settled: it says 99.5 °C where 100.0 °C is right.').waitFor()
  await sheet.getByRole('button', { name: 'Use them: draw the line' }).click()
  await sheet.waitFor({ state: 'detached' })
  expect(await kept()).toMatchObject([
    { body: { kind: 'two-point', low: { rawC: 0.5, trueC: 0 }, high: { rawC: 99.5, trueC: 100 } } },
  ])
})

test('a probe that is not where it should be is refused, and nothing is kept', async () => {
  const { page, stands, kept } = await probesPage()
  await page.getByRole('button', { name: 'Check probe-5' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByRole('button', { name: 'The probe is in: begin' }).click()
  await sheet.getByText('Waiting for readings of this probe.').waitFor()
  stands(12)
  await sheet.getByText('This check does not count').waitFor()
  expect(await sheet.getByRole('button', { name: /^Use/ }).count()).toBe(0)
  expect(await kept()).toEqual([])
})

test('a correction is typed with the day from which it holds; what is no number is said', async () => {
  const { page, kept } = await probesPage()
  await page.getByRole('button', { name: 'Correction of probe-5' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByLabel('Add to what it says').fill('much')
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.getByText('That didn’t work').waitFor()
  await sheet.getByLabel('Add to what it says').fill('-0,4')
  await sheet.getByLabel('Holds from').fill('2026-03-03')
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.waitFor({ state: 'detached' })
  const [made] = (await kept()) as { fromMs: number; body: object }[]
  expect(made?.body).toEqual({ kind: 'offset', offsetC: -0.4 })
  expect(Math.abs((made?.fromMs ?? 0) - Date.UTC(2026, 2, 3))).toBeLessThanOrEqual(14 * 3_600_000)
})

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { Program, buildProgram } from '../kit/program.ts'
import { watchSlowness } from '../kit/slowness.ts'
import { tempFolder } from '../kit/temp-folder.ts'
import { openBrowser, openPage } from './browser.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

/** The real program on a folder of its own, without probes: the test is the probe. */
async function startServer(folder: string, port = 0) {
  const program = new Program(['serve', '--port', String(port), '--data', folder, '--no-bridge'])
  await program.start(/ready http/)
  onTestFinished(() => program.stop())
  const url = /ready (http:\S+)/.exec(program.output)?.[1] ?? 'nowhere'
  return { program, url, port: Number(new URL(url).port) }
}

/** One reading a second until stopped, as a device of its own posts them (SenML, RFC 8428). */
async function probeAt(url: string, startC = 20) {
  let tempC = startC
  const send = () =>
    fetch(`${url}/api/readings`, {
      method: 'POST',
      headers: { 'content-type': 'application/senml+json' },
      body: JSON.stringify([{ n: 'board/heron', u: 'Cel', v: tempC + (Date.now() % 10) / 100 }]),
    }).catch(() => undefined)
  await send()
  const timer = setInterval(() => void send(), 1000)
  const stop = () => clearInterval(timer)
  onTestFinished(stop)
  return { stop, heatTo: (toC: number) => void (tempC = toC) }
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name })

async function addPot(page: Page): Promise<void> {
  await button(page, 'Add a pot').click()
  await page.getByLabel('Name of the pot').fill('Heron')
  await page.getByLabel('Litres of water').fill('20')
  await button(page, 'Save').click()
  await page.getByText('20 L · dial to 10').waitFor()
}

/** Writes a plan as a person does, with a window upside down first. */
async function writePlan(page: Page): Promise<void> {
  await page.getByLabel('Title', { exact: true }).fill('Red on wool, two skeins')
  await page.getByLabel('Fibre').fill('wool')
  await page.getByLabel('Name of the stage').fill('Alum mordant')
  await page.getByLabel('Window from').fill('86')
  await page.getByLabel('Window to').fill('80')
  await page.getByLabel('Ceiling').fill('90')
  await page.getByLabel('Hold', { exact: true }).fill('60')
  await button(page, 'Add a line').click()
  await page.getByLabel('Name', { exact: true }).fill('potassium alum')
  await page.getByLabel('Amount').fill('35')
  await button(page, 'Save the plan').click()
  const high = page.getByLabel('Window to')
  expect(await high.getAttribute('aria-invalid')).toBe('true')
  await page.getByText('The window is upside down').waitFor()
  await page.getByLabel('Window from').fill('80')
  await high.fill('86')
  await button(page, 'Save the plan').click()
  await page.getByRole('heading', { name: 'Plan: Red on wool, two skeins' }).waitFor()
}

test('from an empty studio to an alarm that was answered and stands in the record', async () => {
  const { url } = await startServer(tempFolder())
  const probe = await probeAt(url)
  const { page, complaints, strangers, sounding } = await openPage(browser, url)
  await page.getByText('No pot stands on the stove yet.').waitFor()
  await page.getByRole('link', { name: 'Find a probe' }).click()
  await addPot(page)
  await page
    .getByRole('article', { name: 'heron' })
    .getByText(/20\.\d °C/)
    .waitFor()
  await page.getByLabel('Pot for heron').selectOption({ label: 'Heron' })

  await page.getByRole('link', { name: 'Plans' }).click()
  await page.getByRole('link', { name: 'Write a plan' }).click()
  await writePlan(page)
  await page.getByRole('link', { name: 'Start a batch' }).click()
  await page.getByLabel('Name of the batch').fill('Marl, two skeins')
  await page.getByLabel('Dry weight of the goods').fill('850')
  // 850 g × 35 % = 297.5 g: a worked example of the trade, reckoned by hand.
  await page.getByText('297.5 g').waitFor()
  await page.getByLabel('Pot', { exact: true }).selectOption({ index: 1 })
  await button(page, 'Start on this pot').click()

  await page.getByText('1 of 1: Alum mordant').waitFor()
  await page.getByText('Window 80–86 °C · ceiling 90.0 °C').waitFor()
  await page.locator('.sound-switch').first().click()
  await button(page, 'Goods in').click()
  await page.getByText(/Noted Goods in at/).waitFor()
  probe.heatTo(84)
  await page.locator('.standing-in-window').waitFor({ timeout: 60_000 })
  probe.heatTo(92)
  await page.locator('.alarm.at-once', { hasText: 'ceiling' }).waitFor({ timeout: 60_000 })
  await expect.poll(sounding).toBeGreaterThan(0)
  await page.goto(`${url}/#/settings`)
  await page.getByLabel('Your name').fill('Ines')
  await page.goto(`${url}/#/pots/heron`)
  await answerAll(page)
  await expect.poll(sounding).toBe(0)

  await page.getByRole('link', { name: 'Marl, two skeins' }).click()
  await page.getByRole('heading', { name: 'Marl, two skeins' }).waitFor()
  await page
    .locator('.run')
    .getByText(/answered by Ines at/)
    .first()
    .waitFor()
  await page.locator('.run').getByText('Goods in').first().waitFor()
  await page.getByRole('button', { name: /^Take back: Goods in/ }).click()
  await page.locator('.run del', { hasText: 'Goods in' }).waitFor()
  await page.getByRole('img', { name: /Temperature trace of the stage Alum mordant/ }).waitFor()
  expect(complaints).toEqual([])
  expect(strangers).toEqual([])
})

/** Answers whatever asks for a person. */
async function answerAll(page: Page): Promise<void> {
  const answer = button(page, 'I’m there').first()
  await answer.waitFor()
  while (await answer.isVisible()) {
    await answer.click()
    await page.waitForTimeout(300)
  }
}

test('a probe that falls silent is greyed at once and heals by itself', async () => {
  const { url } = await startServer(tempFolder())
  const probe = await probeAt(url, 61)
  await ask(url, '/api/pots', {
    title: 'Heron',
    vessel: { litres: 20, burner: { dialMax: 10 } },
    probe: 'heron',
  })
  const { page } = await openPage(browser, url)
  await page.locator('.reading-fresh').waitFor({ timeout: 20_000 })
  // A few readings more, so that the probe's own rhythm is known.
  await page.waitForTimeout(5_000)
  probe.stop()
  await page.locator('.reading-stale').waitFor({ timeout: 10_000 })
  await expect.poll(() => page.getByText(/No reading for \d+ s/).count()).toBe(1)
  expect(await page.locator('.standing-in-window').count()).toBe(0)
  await probeAt(url, 60.8)
  await page.locator('.reading-fresh').waitFor({ timeout: 20_000 })
})

async function ask(url: string, path: string, body: object): Promise<void> {
  const answer = await fetch(`${url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`)
}

test('a server that is killed turns the page red within 6 s, and the page heals when it is back', async () => {
  const folder = tempFolder()
  const { program, url, port } = await startServer(folder)
  await ask(url, '/api/pots', { title: 'Heron', vessel: { litres: 20, burner: { dialMax: 10 } } })
  const { page, sounding } = await openPage(browser, url)
  await page.getByText('No probe hangs in this pot').first().waitFor()
  await page.locator('.sound-switch').first().click()
  await page.getByText('Sound is on').waitFor()
  await program.stop('SIGKILL')
  const slowness = watchSlowness()
  const fromMs = performance.now()
  await page.locator('.silence-frame').waitFor()
  expect(performance.now() - fromMs).toBeLessThan(6_500 * slowness())
  await expect.poll(sounding).toBe(1)
  await startServer(folder, port)
  await page.locator('.silence-frame').waitFor({ state: 'detached', timeout: 20_000 })
  await expect.poll(sounding).toBe(0)
})

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { cookedRecord } from '../kit/cooked-record.ts'
import { Program, buildProgram } from '../kit/program.ts'
import { labPot } from '../kit/stove-lab.ts'
import { openBrowser, openPage } from './browser.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

/** The real program on a record of two days; its learning thread is at work from the start. */
async function startServer(): Promise<string> {
  const folder = await cookedRecord(labPot(14, 'coil', 3), 2, Date.now() - 3_600_000)
  const program = new Program(['serve', '--port', '0', '--data', folder, '--no-bridge'])
  await program.start(/ready http/)
  onTestFinished(() => program.stop())
  return /ready (http:\S+)/.exec(program.output)?.[1] ?? 'nowhere'
}

/** Until the learning thread has both days. */
async function learned(url: string): Promise<void> {
  for (let tries = 0; tries < 100; tries++) {
    const page = (await (await fetch(`${url}/api/pots/heron/burner`)).json()) as { traces: unknown[] }
    if (page.traces.length === 2) return
    await new Promise((resolve) => setTimeout(resolve, 200))
  }
  throw new Error('expected two traces to be learned')
}

test('a burner is looked at, tried out with the keyboard, and declared changed', async () => {
  const url = await startServer()
  await learned(url)
  const { page, complaints } = await openPage(browser, `${url}/#/pots/heron`)
  await page.getByRole('link', { name: 'How this burner behaves' }).click()
  await page.getByText('Learned from 2 traces.').waitFor()
  const row = page.getByRole('row', { name: /^3 / })
  expect(await row.first().textContent()).toMatch(/W .*°C/)
  expect(await page.getByText('guess', { exact: true }).count()).toBeLessThan(8)
  expect(await page.getByRole('link', { name: 'Marl, day 2' }).first().getAttribute('href')).toBe(
    '#/batches/2',
  )

  await page.getByRole('link', { name: 'What if …' }).click()
  const dial = page.getByRole('slider', { name: 'Dial' })
  await page.getByText(/^In the window after/).waitFor()
  await expect.poll(() => page.getByRole('img', { name: /Over the ceiling after/ }).count()).toBe(1)
  await dial.focus()
  await page.keyboard.press('Home')
  await page.getByText('Never in the window within these hours.').waitFor()
  expect(await dial.getAttribute('aria-valuetext')).toBe('off')
  await page.keyboard.press('End')
  await page.getByText(/^In the window after/).waitFor()
  expect(await dial.getAttribute('aria-valuetext')).toBe('10 of 10')
  const fast = await page.getByText(/^In the window after/).textContent()
  await page.getByRole('slider', { name: 'Water', exact: true }).focus()
  await page.keyboard.press('End')
  await expect.poll(() => page.getByText(/^In the window after/).textContent()).not.toBe(fast)

  await page.getByRole('link', { name: 'How this burner behaves' }).click()
  await page.getByRole('button', { name: 'The burner was changed' }).click()
  await page.getByRole('button', { name: 'Yes, it is another burner now' }).click()
  await page.getByRole('heading', { name: 'These are guesses' }).waitFor()
  expect(complaints).toEqual([])
})

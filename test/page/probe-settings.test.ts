import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
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

const MODBUS = {
  name: 'transmitter',
  kind: 'modbus-rtu',
  path: '/dev/ttyUSB7',
  registers: [{ station: 2, address: 9 }],
}
const BOARD = {
  name: 'heron',
  kind: 'mqtt',
  url: 'mqtt://127.0.0.1:9',
  topic: 'studio/heron',
  user: 'dyer',
  password: 'not for pages',
}

async function probesPage(...probes: readonly object[]) {
  const server = await pageStudio(Date.now())
  for (const probe of probes) await server.ask('POST', '/api/probe-settings', probe)
  const { page, complaints } = await openPage(browser, `${server.url}/#/probes`)
  const settings = async () => (await server.ask('GET', '/api/probe-settings')).body as object[]
  return { server, page, complaints, settings }
}

test('a transmitter is changed in every detail and found by its USB identity', async () => {
  const { page, settings, complaints } = await probesPage(MODBUS)
  await page.getByRole('button', { name: 'Settings of transmitter' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByLabel('Function').selectOption('4')
  await sheet.getByLabel('Type of the number').selectOption('float32')
  await sheet.getByLabel('Word that comes first').selectOption('little')
  await sheet.getByLabel('Port').fill('')
  await sheet.getByText('More settings').click()
  await sheet.getByLabel('USB vendor').fill('04')
  expect(await seriousFaults(page)).toEqual([])
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.getByText('allowed are four hexadecimal digits').waitFor()
  await sheet.getByLabel('USB vendor').fill('0403')
  await sheet.getByLabel('Lag in water').fill('14')
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.waitFor({ state: 'detached' })
  const [changed] = await settings()
  expect(changed).toMatchObject({
    usb: { vendorId: '0403' },
    lagS: 14,
    registers: [{ station: 2, address: 9, function: 4, type: 'float32', wordOrder: 'little' }],
  })
  expect(changed).not.toHaveProperty('path')
  // A refused form is answered with status 400, which the browser notes.
  expect(complaints.filter((text) => !text.includes('400'))).toEqual([])
})

test('a kept password is not on the page, and stays when something else is changed', async () => {
  const { server, page } = await probesPage(BOARD)
  await page.getByRole('button', { name: 'Settings of heron' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByText('One is kept.').waitFor()
  expect(await sheet.getByLabel('Password').inputValue()).toBe('')
  expect(await page.content()).not.toContain('not for pages')
  await sheet.getByLabel('Topic', { exact: true }).fill('studio/pots/heron')
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.waitFor({ state: 'detached' })
  const { probes } = (await server.ask('GET', '/api/bridge/settings')).body
  expect(probes).toMatchObject([{ topic: 'studio/pots/heron', password: 'not for pages' }])
})

test('what has no field is changed as text, checked like the file', async () => {
  const { page, settings } = await probesPage(BOARD)
  await page.getByRole('button', { name: 'Settings of heron' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByRole('button', { name: 'As text' }).click()
  const text = sheet.getByLabel('The entry, as in "probes" of holdfast.json')
  const entry = JSON.parse(await text.inputValue()) as object
  await text.fill('{ "name": ')
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.getByText('this is no JSON').waitFor()
  await text.fill(JSON.stringify({ ...entry, signal: { kind: 'platinum', ohms0: 1000 } }))
  await sheet.getByRole('button', { name: 'Save' }).click()
  await sheet.waitFor({ state: 'detached' })
  expect(await settings()).toMatchObject([{ signal: { kind: 'platinum', ohms0: 1000 }, hasPassword: true }])
})

test('a probe is taken off the list after a second tap, and what was set is told with its day', async () => {
  const { page, settings } = await probesPage(BOARD, MODBUS)
  await page.getByRole('button', { name: 'Settings of heron' }).click()
  const sheet = page.getByRole('dialog')
  await sheet.getByText(/: set$/).waitFor()
  await sheet.getByRole('button', { name: 'Take it off the list' }).click()
  expect(await settings()).toHaveLength(2)
  await sheet.getByText('corrections stay in the record').waitFor()
  await sheet.getByRole('button', { name: 'Yes, take it off' }).click()
  await sheet.waitFor({ state: 'detached' })
  expect(await settings()).toMatchObject([{ name: 'transmitter' }])
  await page.getByRole('button', { name: 'Settings of heron' }).waitFor({ state: 'detached' })
})

import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { type Page, chromium } from 'playwright-core'
import { expect, onTestFinished, test } from 'vitest'
import { tempFolder } from '../kit/temp-folder.ts'

/** The whole program, with push switched on. */
async function program(): Promise<string> {
  const folder = tempFolder()
  writeFileSync(join(folder, 'holdfast.json'), JSON.stringify({ port: 0, push: {} }))
  const flags = ['serve', '--no-bridge', '--data', folder]
  const child = spawn('node', ['server/commands/holdfast.js', ...flags], {
    cwd: join(import.meta.dirname, '../..'),
    stdio: ['ignore', 'pipe', 'ignore'],
  })
  onTestFinished(async () => {
    const ended = once(child, 'exit')
    child.kill('SIGTERM')
    await ended
  })
  let said = ''
  for await (const part of child.stdout) {
    said += String(part)
    const url = /ready (http:\S+)/.exec(said)?.[1]
    if (url !== undefined) return url
  }
  throw new Error(`expected "ready http://…", got ${said}`)
}

async function browser() {
  const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']
  const executablePath = places.find((place) => existsSync(place))
  if (executablePath === undefined)
    throw new Error(`the tests need a Chromium, at one of ${places.join(', ')}`)
  const opened = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] })
  onTestFinished(() => opened.close())
  return opened
}

test('the bedtime test sounds on every open page, and the night page shows who answered', async () => {
  const url = await program()
  const open = await browser()
  const kitchen = await open.newPage({ viewport: { width: 800, height: 600 } })
  await kitchen.goto(`${url}/#/`)
  const night = await open.newPage({ viewport: { width: 390, height: 844 } })
  await night.goto(`${url}/#/night`)
  await night.getByRole('button', { name: 'Test the alarm' }).click()
  await kitchen.getByRole('button', { name: 'I hear it' }).click()
  await night.getByRole('button', { name: 'I heard it' }).click()
  await night.getByText('a page, 800 × 600').waitFor()
  await night.getByText('a page, 390 × 844').waitFor()
  expect(await kitchen.getByText('Test alarm. Can you hear it?').count()).toBe(0)
})

/** Delivers a push message as the browser's push service would (Chrome DevTools Protocol, ServiceWorker domain). */
async function push(page: Page, url: string, message: object): Promise<void> {
  const devtools = await page.context().newCDPSession(page)
  const registered = new Promise<string>((resolve) =>
    devtools.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      const [first] = registrations
      if (first !== undefined) resolve(first.registrationId)
    }),
  )
  await devtools.send('ServiceWorker.enable')
  const registrationId = await registered
  const data = JSON.stringify(message)
  await devtools.send('ServiceWorker.deliverPushMessage', { origin: url, registrationId, data })
}

const shown = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready
    const notifications = await registration.getNotifications()
    return notifications.map((n) => ({ title: n.title, body: n.body, tag: n.tag, silent: n.silent }))
  })

test('what is pushed to a phone is shown; that somebody is there takes its place, silently', async () => {
  const url = await program()
  const context = await (await browser()).newContext()
  await context.grantPermissions(['notifications'], { origin: url })
  const page = await context.newPage()
  await page.goto(`${url}/#/settings`)
  await page.evaluate(() => navigator.serviceWorker.register('/push-worker.js').then(() => undefined))
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  const alarm = {
    kind: 'alarm',
    tag: 'alarm-12',
    title: 'Come now',
    body: 'Heron: 76.4 °C, ceiling 76.0.',
    path: '/#/pots/heron',
    isUrgent: true,
    id: 12,
  }
  await push(page, url, alarm)
  await expect
    .poll(() => shown(page))
    .toEqual([{ title: 'Come now', body: alarm.body, tag: 'alarm-12', silent: false }])
  await push(page, url, { ...alarm, kind: 'hush', title: 'Ina is there', isUrgent: false })
  await expect
    .poll(() => shown(page))
    .toEqual([{ title: 'Ina is there', body: alarm.body, tag: 'alarm-12', silent: true }])
})

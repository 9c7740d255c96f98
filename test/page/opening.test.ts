import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { firstAsks } from '../../web/state/first-asks.ts'
import { parseRoute } from '../../web/state/route.ts'
import { buildProgram } from '../kit/program.ts'
import { type WatchedPage, openBrowser, openPage } from './browser.ts'
import { wholeStudio } from './whole-studio.ts'

let browser: Browser

beforeAll(async () => {
  buildProgram()
  browser = await openBrowser()
})
afterAll(() => browser.close())

/**
 * What the page asks the server for until it stands. A trace is asked for once it is known which; what sliders ask is
 * sent when they have rested for a while, which may be after the page stands.
 */
async function askedAt({ page, settled }: WatchedPage, url: string): Promise<readonly string[]> {
  const asked: string[] = []
  const note = (request: { url(): string; method(): string }) => {
    const { pathname, search } = new URL(request.url())
    if (
      request.method() === 'GET' &&
      pathname.startsWith('/api/') &&
      pathname !== '/api/studio' &&
      pathname !== '/api/trace'
    )
      asked.push(pathname + search)
  }
  page.on('request', note)
  await page.goto(url)
  await settled()
  page.off('request', note)
  return asked.toSorted()
}

test('a new window asks for what its page shows before the program is there, and for nothing twice', async () => {
  const { server, pages } = await wholeStudio()
  const opened = await openPage(browser, 'about:blank')
  // What is fetched again every few seconds would be asked twice on a slow machine.
  await opened.page.addInitScript(() => Object.assign(globalThis, { setInterval: () => 0 }))
  for (const path of pages.filter((page) => firstAsks(parseRoute(page)).length > 0)) {
    await opened.page.goto(`${server.url}/#/nowhere`)
    await opened.settled()
    const within = await askedAt(opened, `${server.url}/${path}`)
    await opened.page.goto('about:blank')
    const fresh = await askedAt(opened, `${server.url}/${path}`)
    expect.soft({ path, asked: fresh }).toEqual({ path, asked: within })
  }
})

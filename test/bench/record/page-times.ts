import { type Browser, type CDPSession, type Page, chromium } from 'playwright-core'
import { findChromium } from '../../../server/report/find-chromium.ts'
import { type Times, timesOf } from './times.ts'

/** A page of the program, and what must stand in it before a time of it counts. */
export interface PageAsk {
  readonly hash: string
  /** Typed into the page's search field; the time counts from there. */
  readonly typed?: string
  /** What stands there once it is whole, and how often at least. */
  readonly shows: string
  readonly times: number
}

export interface PageTimes {
  /** A new window with nothing in its cache: program, style and data are fetched. Not for what is typed. */
  readonly opened?: PageTime
  /** From another page of the open program. */
  readonly within: PageTime
}
export interface PageTime {
  readonly painted: Times
  readonly busy: Times
}

/** So long nothing may be painted before what was painted last counts as the last, ms. */
const QUIET_MS = 500
const ROUNDS = 6

/**
 * Milliseconds from the navigation to the last paint, as the browser's own record of its work tells it: the page
 * itself is left alone. Paints are those of the page's own frame, up to the end of the frame they belong to.
 */
export async function pageTimes(url: string, ask: PageAsk): Promise<PageTimes> {
  const executablePath = findChromium()
  if (executablePath === null) throw new Error('a Chromium is needed to measure the page')
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] })
  try {
    const opened: Drawn[] = []
    const within: Drawn[] = []
    for (let n = 0; n <= ROUNDS; n += 1) {
      if (ask.typed === undefined) opened.push(await timeOpened(browser, url, ask))
      within.push(await timeWithin(browser, url, ask))
    }
    return { ...(opened.length === 0 ? {} : { opened: timeOf(opened) }), within: timeOf(within) }
  } finally {
    await browser.close()
  }
}

const timeOf = (all: readonly Drawn[]): PageTime => ({
  painted: timesOf(all.map(({ paintedMs }) => paintedMs)),
  busy: timesOf(all.map(({ busyMs }) => busyMs)),
})

async function timeOpened(browser: Browser, url: string, ask: PageAsk): Promise<Drawn> {
  return withPage(browser, async (page) => {
    const trace = await beginTrace(page)
    await page.goto(url + ask.hash)
    return drawn(await endTrace(page, trace, ask), (e) => e.name === 'navigationStart' && isOf(e, url))
  })
}

async function timeWithin(browser: Browser, url: string, ask: PageAsk): Promise<Drawn> {
  return withPage(browser, async (page) => {
    await page.goto(url + (ask.typed === undefined ? '#/settings' : ask.hash))
    await page.waitForSelector('main h1')
    await page.waitForTimeout(QUIET_MS)
    const trace = await beginTrace(page)
    await page.evaluate(() => void performance.mark('asked'))
    if (ask.typed !== undefined)
      await page.locator('form[role=search] input').first().evaluate(putIn, ask.typed)
    else await page.evaluate(goTo, ask.hash)
    return drawn(await endTrace(page, trace, ask), (e) => e.name === 'asked')
  })
}

/** Runs in the page. Without the focus: a blinking caret is a paint of its own. */
function putIn(field: object, typed: string): void {
  Object.assign(field, { value: typed })
  ;(field as EventTarget).dispatchEvent(new Event('input', { bubbles: true }))
}

/** Runs in the page. */
function goTo(hash: string): void {
  const { location } = globalThis as unknown as { location: { hash: string } }
  location.hash = hash
}

async function withPage<T>(browser: Browser, use: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  try {
    return await use(await context.newPage())
  } finally {
    await context.close()
  }
}

/** One line of the browser's record of its work. `ts`: microseconds on its own clock. */
interface TraceLine {
  readonly name: string
  readonly ts: number
  readonly pid: number
  readonly tid: number
  readonly dur?: number
  /** Microseconds of the processor's time. */
  readonly tdur?: number
  readonly args?: { readonly data?: { readonly documentLoaderURL?: string } }
}

const CATEGORIES = 'devtools.timeline,blink.user_timing,loading,toplevel'

interface OpenTrace {
  readonly session: CDPSession
  readonly lines: TraceLine[]
}

async function beginTrace(page: Page): Promise<OpenTrace> {
  const session = await page.context().browser()!.newBrowserCDPSession()
  const lines: TraceLine[] = []
  session.on('Tracing.dataCollected', ({ value }) => lines.push(...(value as unknown as TraceLine[])))
  await session.send('Tracing.start', { transferMode: 'ReportEvents', categories: CATEGORIES })
  return { session, lines }
}

async function endTrace(
  page: Page,
  { session, lines }: OpenTrace,
  ask: PageAsk,
): Promise<readonly TraceLine[]> {
  await page
    .locator(ask.shows)
    .nth(ask.times - 1)
    .waitFor({ state: 'attached' })
  await page.waitForTimeout(QUIET_MS)
  const whole = new Promise<void>((done) => void session.once('Tracing.tracingComplete', () => done()))
  await session.send('Tracing.end')
  await whole
  await session.detach()
  return lines
}

const isOf = (line: TraceLine, url: string): boolean =>
  line.args?.data?.documentLoaderURL?.startsWith(url) === true

const PAINTS: ReadonlySet<string> = new Set(['Paint', 'Commit', 'Layerize', 'PrePaint'])

/** From the begin to the last paint, and what of it the page's own thread was at work, whatever else the machine does. */
export interface Drawn {
  readonly paintedMs: number
  readonly busyMs: number
}

function drawn(lines: readonly TraceLine[], isBegin: (line: TraceLine) => boolean): Drawn {
  const begin = lines.find(isBegin)
  const own = lines.filter((line) => line.pid === begin?.pid && line.tid === begin.tid)
  const paints = own.filter((line) => PAINTS.has(line.name))
  if (begin === undefined || paints.length === 0) throw new Error('the browser recorded no begin or no paint')
  const lastTs = Math.max(...paints.map((line) => line.ts + (line.dur ?? 0)))
  const tasks = own.filter(({ name, ts }) => name.endsWith('RunTask') && ts >= begin.ts && ts < lastTs)
  const busy = tasks.reduce((sum, task) => sum + (task.tdur ?? 0), 0)
  return { paintedMs: (lastTs - begin.ts) / 1000, busyMs: busy / 1000 }
}

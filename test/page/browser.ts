import { existsSync } from 'node:fs'
import { type Browser, type BrowserContextOptions, type Page, type Request, chromium } from 'playwright-core'
import { onTestFinished } from 'vitest'

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** Headless Chromium; a page in it may sound only after a tap, as with people. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = PLACES.find((place) => existsSync(place))
  if (executablePath === undefined)
    throw new Error(`the tests need a Chromium, at one of ${PLACES.join(', ')}`)
  return chromium.launch({ executablePath, args: ARGS })
}

/** A page with everything written down that a test wants to know of it. */
export interface WatchedPage {
  readonly page: Page
  /** What the browser complained of: errors, and whatever its content policy refused. */
  readonly complaints: readonly string[]
  /** Requests that left for anywhere but the server. */
  readonly strangers: readonly string[]
  /** Until the page has a heading, and two frames went by in which it asked nothing and waited for no answer. */
  readonly settled: () => Promise<void>
  /** How many sounds are going on now; loops count until they are stopped. */
  readonly sounding: () => Promise<number>
  /** How many sounds were begun in all. */
  readonly begun: () => Promise<number>
}

/**
 * A page in a context of its own, which goes when its test does: a page that lingers keeps asking its server, and the
 * next test shares the browser with it.
 */
export async function openPage(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<WatchedPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options })
  onTestFinished(() => context.close())
  const page = await context.newPage()
  const complaints: string[] = []
  const strangers: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('request', (request) => {
    if (new URL(request.url()).host !== new URL(url).host) strangers.push(request.url())
  })
  const settled = settling(page)
  await page.addInitScript(countSounds)
  await page.goto(url)
  const count = (name: string) => page.evaluate((n) => Number(Reflect.get(globalThis, n)), name)
  return {
    page,
    complaints,
    strangers,
    settled,
    sounding: () => count('soundsNow'),
    begun: () => count('soundsBegun'),
  }
}

function settling(page: Page): () => Promise<void> {
  const waiting = new Set<Request>()
  let asked = 0
  page.on('request', (request) => {
    asked += 1
    waiting.add(request)
  })
  page.on('requestfinished', (request) => waiting.delete(request))
  page.on('requestfailed', (request) => waiting.delete(request))
  return async () => {
    await page.locator('h1').first().waitFor({ state: 'attached' })
    for (let before = -1; before !== asked || waiting.size > 0;) {
      before = asked
      await page.evaluate(twoFrames)
    }
  }
}

/** Runs in the page. */
const twoFrames = (): Promise<void> =>
  new Promise((done) => void requestAnimationFrame(() => requestAnimationFrame(() => done())))

/** Runs in the page: counts what the loudspeaker is given. */
function countSounds(): void {
  const counts = globalThis as unknown as { soundsNow: number; soundsBegun: number }
  counts.soundsNow = 0
  counts.soundsBegun = 0
  const start = Object.getOwnPropertyDescriptor(AudioBufferSourceNode.prototype, 'start')?.value as (
    this: AudioBufferSourceNode,
    ...given: (number | undefined)[]
  ) => void
  AudioBufferSourceNode.prototype.start = function begin(...given) {
    counts.soundsBegun += 1
    counts.soundsNow += 1
    this.addEventListener('ended', () => (counts.soundsNow -= 1))
    return start.apply(this, given)
  }
}

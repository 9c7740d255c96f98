// test/page/browser.ts
import { existsSync } from 'node:fs'
import { chromium } from 'playwright-core'
var PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']
var ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]
async function openBrowser() {
  const executablePath = PLACES.find((place) => existsSync(place))
  if (executablePath === void 0) throw new Error(`the tests need a Chromium, at one of ${PLACES.join(', ')}`)
  return chromium.launch({ executablePath, args: ARGS })
}

// ../../tmp/words-shots/shoot.mts
var [url, out, widths = '1280,390,320', only = ''] = process.argv.slice(2)
var PAGES = [
  '/',
  '/pots/heron',
  '/pots/heron/burner',
  '/pots/heron/what-if',
  '/pots/heron/evening',
  '/batches',
  '/find/lot',
  '/batches/8',
  '/weigh/8',
  '/record/8',
  '/record/1',
  '/repeat/1',
  '/differs/8,4',
  '/compare/1,2',
  '/stock',
  '/shades',
  '/class',
  '/plans',
  '/plans/2',
  '/plans/new',
  '/start',
  '/begin/9',
  '/probes',
  '/night',
  '/morning',
  '/settings',
  '/nowhere',
]
var browser = await openBrowser()
for (const width of widths.split(',').map(Number)) {
  const context = await browser.newContext({
    viewport: { width, height: 800 },
    locale: process.env.LOC ?? 'de-DE',
    colorScheme: 'light',
  })
  const page = await context.newPage()
  for (const path of PAGES) {
    if (only && !path.includes(only)) continue
    await page.goto(`${url}/#${path}`)
    await page.reload()
    await page
      .locator('h1')
      .first()
      .waitFor({ state: 'attached', timeout: 5e3 })
      .catch(() => console.log('no h1', path))
    await page.waitForTimeout(900)
    await page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)))
    await page.waitForTimeout(150)
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    if (over > 0) console.log('OVER', width, path, over)
    const clipped = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          'button,a.button,label,.pot-card *,nav a,td,th,h1,h2,h3,legend,summary,p',
        ),
      ]
        .filter(
          (e) =>
            !String(e.className).includes('visually-hidden') &&
            e.scrollWidth > e.clientWidth + 1 &&
            getComputedStyle(e).display !== 'inline' &&
            e.clientWidth > 0,
        )
        .map(
          (e) =>
            `${e.tagName}.${e.className}: ${(e.textContent ?? '').slice(0, 50)} ${e.scrollWidth}>${e.clientWidth}`,
        )
        .slice(0, 8),
    )
    if (clipped.length) console.log('CLIP', width, path, clipped)
    await page.screenshot({ path: `${out}/${width}-${path.replaceAll('/', '_')}.png`, fullPage: true })
    if (width === 1280 && process.env.TEXT) {
      const text = await page.evaluate(() => document.body.innerText)
      console.log('=====', path)
      console.log(text)
    }
  }
  await context.close()
}
await browser.close()

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Faults that keep somebody out, by axe-core's own rules for WCAG 2.2 AA. */
export async function seriousFaults(page: Page): Promise<readonly string[]> {
  // The page's content policy forbids scripts from elsewhere, so axe-core comes through the debugger.
  await page.evaluate(AXE)
  return page.evaluate(async () => {
    const axe = Reflect.get(globalThis, 'axe') as {
      run(
        options: object,
      ): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>
    }
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
    const found = await axe.run({ runOnly: { type: 'tag', values: tags } })
    return found.violations
      .filter((v) => v.impact === 'serious' || v.impact === 'critical')
      .flatMap((v) => v.nodes.map((node) => `${v.id}: ${node.html.slice(0, 160)}`))
  })
}

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { brokerSettings } from '#core/wire/bridge-link'
import { decodeProbes, PROBE_KINDS } from '#core/wire/probe-settings'

const docs = join(import.meta.dirname, '../../docs')
const pages = readdirSync(join(docs, 'probes')).filter((name) => name.endsWith('.md'))

test('each kind of probe has its page', () => {
  expect(pages.map((name) => name.replace('.md', '')).toSorted()).toEqual([...PROBE_KINDS].toSorted())
})

const blocks = pages.flatMap((page) =>
  [...readFileSync(join(docs, 'probes', page), 'utf8').matchAll(/```jsonc?\n([\s\S]*?)```/g)].map(
    (m, i) => [page, i, m[1]!] as const,
  ),
)

test.each(blocks)('the settings on %s (%d) are taken as they stand', (_page, _i, text) => {
  const settings = JSON.parse(text) as { probes: unknown; broker?: unknown }
  expect(decodeProbes(settings.probes)).toMatchObject({ ok: true })
  expect(settings.broker === undefined || brokerSettings.safeParse(settings.broker).success).toBe(true)
})

test('every picture that a page shows is there', () => {
  const pictures = new Set(readdirSync(join(docs, 'probes', 'pictures')))
  const shown = pages.flatMap((page) =>
    [...readFileSync(join(docs, 'probes', page), 'utf8').matchAll(/\(pictures\/([^)]+)\)/g)].map(
      (m) => m[1]!,
    ),
  )
  expect(shown.length).toBeGreaterThan(5)
  expect(shown.filter((name) => !pictures.has(name))).toEqual([])
})

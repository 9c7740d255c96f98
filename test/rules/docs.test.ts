import { existsSync, readFileSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { decodePlan } from '#core/wire/plan-file'
import { decodeProbes } from '#core/wire/probe-settings'
import { decodeTrace } from '#core/wire/trace-file'

const root = join(import.meta.dirname, '../..')
const read = (path: string): string => readFileSync(join(root, path), 'utf8')

const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join('docs', name)),
]

const scripts = Object.keys((JSON.parse(read('package.json')) as { scripts: object }).scripts)
const commands = new Set(
  [...read('server/commands/main.ts').matchAll(/import \{ (\w+) \} from '\.\/(\w+)\.ts'/g)].map((m) => m[2]!),
)

test.each(PAGES)('%s links to what exists', (page) => {
  const links = [...read(page).matchAll(/\]\((?!https?:|#|mailto:)([^)#\s]+)/g)].map((m) => m[1]!)
  expect(links.filter((link) => !existsSync(join(root, dirname(page), link)))).toEqual([])
})

test.each(PAGES)('%s names scripts and commands that exist', (page) => {
  const text = read(page)
  const ran = [...text.matchAll(/npm run (?:--?\S+ )*([a-z][\w:-]*)/g)].map((m) => m[1]!)
  expect(ran.filter((script) => !scripts.includes(script))).toEqual([])
  const called = [...text.matchAll(/npx --no holdfast ([a-z]+)/g)].map((m) => m[1]!)
  expect(called.filter((command) => !commands.has(command))).toEqual([])
})

test('the settings shown in the README are accepted', () => {
  const shown = [...read('README.md').matchAll(/```json\n([\s\S]*?)```/g)].map((m) => JSON.parse(m[1]!))
  expect(shown.length).toBeGreaterThanOrEqual(2)
  for (const { probes } of shown) expect(decodeProbes(probes)).toMatchObject({ ok: true })
})

test('the example plan and the example trace belong together', () => {
  const decoded = decodePlan(JSON.parse(read('docs/examples/red-on-wool.plan.json')))
  if (!decoded.ok) throw new Error(decoded.why)
  const trace = decodeTrace(
    read('docs/examples/red-on-wool.csv'),
    decoded.plan.stages.map((stage) => stage.id),
  )
  expect(trace).toMatchObject({ ok: true })
})

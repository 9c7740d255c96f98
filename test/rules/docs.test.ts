import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { ALARM_NAMES, NOTICE_NAMES } from '#core/plan/alarm-names'
import { decodePlan } from '#core/wire/plan-file'
import { decodeProbes } from '#core/wire/probe-settings'
import { settingsFile } from '#core/wire/settings'
import { settingsFromVariables, variableName } from '#core/wire/settings-from-text'
import { decodeTrace } from '#core/wire/trace-file'
import { filesBelow, PAGES, read } from './sources.ts'

const root = join(import.meta.dirname, '../..')
const isThere = (path: string): boolean => existsSync(join(root, path))

/** What a pattern's first group finds on a page. */
const all = (text: string, pattern: RegExp): readonly string[] =>
  [...text.matchAll(pattern)].map((m) => m[1]!)

/** Whatever on the pages a rule finds wrong, each with its page. */
const wrongOn = (pages: readonly string[], wrong: (text: string, page: string) => readonly string[]) =>
  pages.flatMap((page) => wrong(read(page), page).map((what) => `${page}: ${what}`))

test('pages link to what exists', () => {
  expect(
    wrongOn(PAGES, (text, page) =>
      all(text, /\]\((?!https?:|#|mailto:)([^)#\s]+)/g).filter((link) => !isThere(join(dirname(page), link))),
    ),
  ).toEqual([])
})

test('pages name files and folders of this repository that exist', () => {
  expect(
    wrongOn(PAGES, (text) =>
      all(text, /`((?:server|bridge|web|test|docs)\/[\w./-]*\w)\/?`/g).filter((path) => !isThere(path)),
    ),
  ).toEqual([])
})

test('pages name scripts that exist', () => {
  const { scripts } = JSON.parse(read('package.json')) as { readonly scripts: object }
  expect(
    wrongOn(PAGES, (text) =>
      all(text, /npm run (?:--?\S+ )*([a-z][\w:-]*)/g).filter((script) => !Object.hasOwn(scripts, script)),
    ),
  ).toEqual([])
})

const isVariable = (name: string): boolean => typeof settingsFromVariables({ [name]: 'x' }) !== 'string'

test('pages name variables that exist', () => {
  expect(
    wrongOn(PAGES, (text) => all(text, /(HOLDFAST_[A-Z_]*[A-Z])/g).filter((name) => !isVariable(name))),
  ).toEqual([])
})

test('pages name addresses that exist', () => {
  const addresses = filesBelow('server/serve', /\.ts$/)
    .flatMap((file) => all(read(file), /['"`](\/(?:api|healthz|metrics)[^'"`\s]*)['"`]/g))
    .map((path) => path.replaceAll('.', '\\.').replaceAll(/:\w+|\$\{\w+\}/g, '[^/]+'))
    .map((path) => new RegExp(`^${path}$`))
  expect(addresses.length).toBeGreaterThan(50)
  const isKnown = (path: string) => addresses.some((known) => known.test(path))
  expect(
    wrongOn(PAGES, (text) =>
      all(text, /(?<![\w.])(\/(?:api|healthz|metrics)\b[^\s`?)"'|,]*)/g).filter((path) => !isKnown(path)),
    ),
  ).toEqual([])
})

test('docs/settings.md has a row for every setting, with its variable, and for nothing else', () => {
  const fields = Object.keys(settingsFile.shape)
  const rows = read('docs/settings.md').split('\n')
  const told = rows.flatMap((row) => all(/^\| ([^|]+) \|/.exec(row)?.[1] ?? '', /`([^`]+)`/g))
  expect(told.toSorted()).toEqual(fields.toSorted())
  const withVariable = fields.filter((field) => isVariable(variableName(field)))
  expect(withVariable.length).toBeGreaterThan(5)
  expect(
    withVariable.filter((f) => !rows.some((row) => row.startsWith(`| \`${f}\` | \`${variableName(f)}\``))),
  ).toEqual([])
})

test('docs/alarms.md tells of every alarm, docs/watch.md of every notice', () => {
  const [alarms, watch] = [read('docs/alarms.md'), read('docs/watch.md')]
  expect(ALARM_NAMES.filter((name) => !alarms.includes(`\`${name}\``))).toEqual([])
  expect(NOTICE_NAMES.filter((name) => !watch.includes(`\`${name}\``))).toEqual([])
})

test('docs/design.md names tokens of the style sheet', () => {
  const sheet = filesBelow('web', /\.css$/)
    .map(read)
    .join('\n')
  const named = all(read('docs/design.md'), /`(--[a-z-]*[a-z])`/g)
  expect(named.length).toBeGreaterThan(5)
  expect(named.filter((token) => !sheet.includes(`${token}:`))).toEqual([])
})

test('the settings shown in the README are accepted', () => {
  const shown = all(read('README.md'), /```json\n([\s\S]*?)```/g).map((text) => JSON.parse(text))
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

import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { ALARM_NAMES, NOTICE_NAMES } from '#core/plan/alarm-names'
import { decodePlan } from '#core/wire/plan-file'
import { modbusRtu } from '#core/wire/probe-kinds/modbus-rtu'
import { mqtt } from '#core/wire/probe-kinds/mqtt'
import { oneWireFiles } from '#core/wire/probe-kinds/one-wire-files'
import { recorded } from '#core/wire/probe-kinds/recorded'
import { serialLines } from '#core/wire/probe-kinds/serial-lines'
import { serialSenml } from '#core/wire/probe-kinds/serial-senml'
import { simulated } from '#core/wire/probe-kinds/simulated'
import { PROBE_KINDS } from '#core/wire/probe-settings'
import { RECORD_BODY_SCHEMAS, RECORD_KINDS } from '#core/wire/record-line-schema'
import { decodeSettings, settingsFile } from '#core/wire/settings'
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

/** The JSON examples of the pages that are whole: `…` stands where a reader puts something of their own. */
const examples = (): readonly Readonly<Record<string, unknown>>[] =>
  PAGES.flatMap((page) => all(read(page), /```jsonc?\n([\s\S]*?)```/g))
    .filter((text) => !text.includes('…'))
    .map((text) => JSON.parse(text) as Readonly<Record<string, unknown>>)

test('settings, probes and plans shown on the pages are accepted', () => {
  const settings = examples().filter((shown) => Object.keys(shown).some((key) => key in settingsFile.shape))
  const shownSettings = settings.filter(
    (shown) => !('stages' in shown) && !('state' in shown) && !('level' in shown),
  )
  expect(shownSettings.length).toBeGreaterThan(10)
  for (const values of shownSettings)
    expect(decodeSettings([{ where: JSON.stringify(values), values }])).toMatchObject({ ok: true })
  const plans = examples().filter((shown) => 'stages' in shown)
  expect(plans.length).toBeGreaterThan(0)
  for (const plan of plans) expect(decodePlan(plan)).toMatchObject({ ok: true })
})

test('docs/record.md has a row for every kind of line with all its fields', () => {
  const rows = read('docs/record.md').split('\n')
  const untold = RECORD_KINDS.flatMap((kind) => {
    const row = rows.find((r) => r.startsWith(`| \`${kind}\` |`)) ?? ''
    const fields = Object.keys(RECORD_BODY_SCHEMAS[kind].shape)
    return [`| \`${kind}\` |`, ...fields.map((f) => `\`${f}\``)]
      .filter((told) => !row.includes(told))
      .map((told) => `${kind}: ${told}`)
  })
  expect(untold).toEqual([])
})

test('every field of a probe stands on the page of its kind or on a page that it points to', () => {
  const kinds = {
    'modbus-rtu': modbusRtu,
    mqtt,
    'one-wire-files': oneWireFiles,
    recorded,
    simulated,
    'serial-lines': serialLines,
    'serial-senml': serialSenml,
  }
  expect(Object.keys(kinds).toSorted()).toEqual(PROBE_KINDS.toSorted())
  const shared = read('docs/probes.md')
  const untold = Object.entries(kinds).flatMap(([kind, schema]) => {
    const page = read(`docs/probes/${kind}.md`)
    const pages = page.includes('serial-lines.md')
      ? page + shared + read('docs/probes/serial-lines.md')
      : page + shared
    return Object.keys(schema.shape)
      .filter((f) => !pages.includes(`\`${f}\``))
      .map((f) => `${kind}.${f}`)
  })
  expect(untold).toEqual([])
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

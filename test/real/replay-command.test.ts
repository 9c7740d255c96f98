import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'

const root = join(import.meta.dirname, '../..')
let folder = ''

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-replay-'))
  const stage = { id: 'dye', title: 'Dye', kind: 'hold', windowC: [65, 72], ceilingC: 76, holdMin: 5 }
  writeFileSync(
    join(folder, 'red.plan.json'),
    JSON.stringify({ title: 'Red', fibre: 'wool', stages: [stage] }),
  )
  const rows = Array.from(
    { length: 601 },
    (_, s) => `${new Date(Date.UTC(2026, 2, 12, 8, 0, s)).toISOString()},68,`,
  )
  writeFileSync(join(folder, 'day.csv'), `time,temp_c,event\n${rows.join('\n')}\n`)
  writeFileSync(join(folder, 'zone.csv'), 'time,temp_c\n2026-03-12T08:00:00,68\n')
})
afterAll(() => rmSync(folder, { recursive: true }))

function replay(...args: string[]) {
  const ran = spawnSync(process.execPath, [join(root, 'server/commands/holdfast.js'), 'replay', ...args], {
    cwd: folder,
    encoding: 'utf8',
  })
  return { code: ran.status, out: ran.stdout, error: ran.stderr }
}

test('prints one JSON object a line and ends with the summary, exit code 0', () => {
  const { code, out } = replay('--plan', 'red.plan.json', '--trace', 'day.csv', '--json', '--forecasts')
  expect(code).toBe(0)
  const lines = out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as { kind: string })
  expect(new Set(lines.map((l) => l.kind))).toEqual(new Set(['notice', 'forecast', 'summary']))
  expect(lines.at(-1)!.kind).toBe('summary')
})

test('a byte order mark at the head of a file is passed over (RFC 8259 §8.1)', () => {
  for (const name of ['red.plan.json', 'day.csv'])
    writeFileSync(join(folder, `marked-${name}`), `\uFEFF${readFileSync(join(folder, name), 'utf8')}`)
  const plain = replay('--plan', 'red.plan.json', '--trace', 'day.csv', '--json')
  const marked = replay('--plan', 'marked-red.plan.json', '--trace', 'marked-day.csv', '--json')
  expect(marked).toEqual(plain)
  expect(marked.code).toBe(0)
})

test('reads as sentences without --json', () => {
  const { code, out } = replay('--plan', 'red.plan.json', '--trace', 'day.csv')
  expect(code).toBe(0)
  expect(out).toContain('10 min by the clock: 10 in the window, 0 below, 0 unknown.')
})

test('a wrong file or flag ends with exit code 2 and one line that says what is allowed', () => {
  for (const [args, said] of [
    [['--plan', 'red.plan.json', '--trace', 'zone.csv'], 'line 2'],
    [['--plan', 'red.plan.json', '--trace', 'none.csv'], 'none.csv'],
    [['--plan', 'day.csv', '--trace', 'day.csv'], 'JSON'],
    [['--plan', 'red.plan.json', '--trace', 'day.csv', '--lag-s', 'slow'], '--lag-s'],
    [['--plan', 'red.plan.json'], '--trace'],
    [['--plan', 'red.plan.json', '--trace', 'day.csv', '--fast'], '--fast'],
  ] as const) {
    const { code, error, out } = replay(...args)
    expect([code, out]).toEqual([2, ''])
    expect(error.trimEnd().split('\n')).toHaveLength(1)
    expect(error).toContain(said)
  }
})

test('the day that DEVELOPERS.md replays and the pot that docs/examples tunes run as they stand', () => {
  const page = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')
  const shown = /npx --no holdfast (replay .*)$/m.exec(page)![1]!.split(' ')
  const run = (args: readonly string[]) =>
    spawnSync(process.execPath, ['server/commands/holdfast.js', ...args], { cwd: root, encoding: 'utf8' })
  const replayed = run(shown)
  expect([replayed.status, replayed.stderr]).toEqual([0, ''])
  expect(replayed.stdout).toContain('readings used')
  const vessel = ['--vessel', 'docs/examples/heron.vessel.json', '--trace', 'docs/examples/red-on-wool.csv']
  const tuned = run(['tune', ...vessel, '--target', '68'])
  expect([tuned.status, tuned.stderr]).toEqual([0, ''])
  expect(tuned.stdout).toContain('It holds')
})

import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { backup } from '../../../server/commands/backup.ts'
import { bridge } from '../../../server/commands/bridge.ts'
import { demo } from '../../../server/commands/demo.ts'
import { exportCommand } from '../../../server/commands/export.ts'
import { main } from '../../../server/commands/main.ts'
import { probes } from '../../../server/commands/probes.ts'
import { replay } from '../../../server/commands/replay.ts'
import { restore } from '../../../server/commands/restore.ts'
import { serve } from '../../../server/commands/serve.ts'
import { tune } from '../../../server/commands/tune.ts'
import { tempFolder } from '../../kit/temp-folder.ts'
import { PAGES, read } from '../../rules/sources.ts'

afterEach(() => {
  vi.restoreAllMocks()
  process.exitCode = undefined
})

/** What a command says and its exit code. */
async function run(...args: readonly string[]) {
  let out = ''
  let error = ''
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((out += String(text)), true))
  vi.spyOn(console, 'error').mockImplementation((text: string) => void (error += text))
  await main(args)
  return { code: process.exitCode, out, error }
}

test.each([
  [
    ['bridge', '--servr', 'x'],
    'there is no flag --servr; the nearest one is --server; "bridge" takes --server, ',
  ],
  [['bridge', 'barn'], '"barn" stands where no word is taken; "bridge" takes --server, '],
  [['serve', '--port'], '--port needs a value; "serve" takes --data, '],
  [['serve', '--no-bridge=yes'], '--no-bridge takes no value; "serve" takes --data, '],
])('%j is one sentence that says what was found and what is taken', async (args, sentence) => {
  const { code, error } = await run(...args)
  expect([code, error.split('\n').length]).toEqual([2, 1])
  expect(error.startsWith(`holdfast: ${sentence}`)).toBe(true)
})

test('a negative number after a flag is its value, not another flag', async () => {
  expect(await run('tune', '--vessel', 'v.json', '--trace', 't.csv', '--target', '-30')).toMatchObject({
    code: 2,
    error: 'holdfast: --target is "-30"; allowed is a temperature from -5 to 105 °C',
  })
})

const row = (s: number) => `${new Date(Date.UTC(2026, 2, 12, 20, 0, s)).toISOString()},${60 - s / 600},`

test('replay tells of every stage by its title', async () => {
  const folder = tempFolder()
  const plan = join(folder, 'cool.plan.json')
  const stage = { id: 'night', title: 'Cool in the bath', kind: 'cool', coolToC: 30 }
  writeFileSync(plan, JSON.stringify({ title: 'Cool', stages: [stage] }))
  const trace = join(folder, 'night.csv')
  const rows = Array.from({ length: 120 }, (_, i) => row(i * 10))
  writeFileSync(trace, ['time,temp_c,event', ...rows].join('\n'))
  expect((await run('replay', '--plan', plan, '--trace', trace)).out).toContain(
    'Cool in the bath: not at 30.0 °C by the end',
  )
})

const inWindow = (s: number) =>
  `${new Date(Date.UTC(2026, 2, 12, 20, 0, s)).toISOString()},${s < 600 ? 82 : 76},`

test('replay counts one alarm as one', async () => {
  const folder = tempFolder()
  const plan = join(folder, 'hold.plan.json')
  const stage = { id: 'dye', title: 'Bath', kind: 'hold', windowC: [80, 86], holdMin: 60 }
  writeFileSync(plan, JSON.stringify({ title: 'Hold', stages: [stage] }))
  const trace = join(folder, 'hold.csv')
  writeFileSync(
    trace,
    ['time,temp_c,event', ...Array.from({ length: 90 }, (_, i) => inWindow(i * 10))].join('\n'),
  )
  const { out } = await run('replay', '--plan', plan, '--trace', trace)
  expect(out).toContain('1 alarm.')
})

const COMMANDS = [serve, demo, bridge, probes, replay, tune, exportCommand, backup, restore]

const flagsIn = (text: string): readonly string[] =>
  [...text.matchAll(/(?<![\w-])--([a-z][a-z-]*)/g)].map((m) => m[1]!)

test.each(COMMANDS.map((c) => [c.name, c] as const))(
  '--help of %s tells of every flag and of no other',
  (_, c) => {
    const told = flagsIn(c.help.replaceAll('npx --no ', ''))
    expect([...new Set(told)].toSorted()).toEqual(Object.keys(c.options).toSorted())
  },
)

test('pages name commands that exist and give them the flags that they take', () => {
  const wrong = PAGES.flatMap((page) =>
    [...read(page).matchAll(/npx --no holdfast ([a-z]+)((?:[^`\n\\]|\\\n)*)/g)].flatMap(([, name, rest]) => {
      const command = COMMANDS.find((c) => c.name === name)
      if (command === undefined) return [`${page}: ${name}`]
      const known = new Set(['help', ...Object.keys(command.options)])
      return flagsIn(rest!).flatMap((flag) => (known.has(flag) ? [] : `${page}: ${name} --${flag}`))
    }),
  )
  expect(wrong).toEqual([])
})

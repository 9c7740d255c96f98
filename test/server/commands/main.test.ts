import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { main } from '../../../server/commands/main.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

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

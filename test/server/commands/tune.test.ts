import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
import { eventWord } from '#core/plan/event'
import { UsageError } from '../../../server/commands/command.ts'
import { tune } from '../../../server/commands/tune.ts'
import { learningEvening } from '../../kit/stove-evening.ts'
import {
  DIAL_MAX,
  labHeatW,
  labHoldDial,
  labLossW,
  type LabPot,
  labPot,
  labSteadyC,
} from '../../kit/stove-lab.ts'
import { read } from '../../rules/sources.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

afterEach(() => vi.restoreAllMocks())

const START = Date.UTC(2026, 2, 12, 17)
const POT = labPot(12, 'coil', 1)

/** The learning evening of a pot as a dyer would have it on disk. */
function filesOf(pot: LabPot, more: readonly string[] = [], startMs = START) {
  const folder = tempFolder()
  const { trace } = learningEvening(pot)
  const at = (atMs: number) => new Date(startMs + atMs).toISOString()
  const rows = [
    ...trace.events.map(
      ({ atMs, event }) => `${at(atMs)},,${eventWord(event as Parameters<typeof eventWord>[0])}`,
    ),
    ...trace.readings.map(({ atMs, tempC }) => `${at(atMs)},${tempC.toFixed(3)},`),
    ...more,
  ]
  const tracePath = join(folder, 'evening.csv')
  const vessel = join(folder, 'vessel.json')
  writeFileSync(tracePath, ['time,temp_c,event', ...rows].join('\r\n'))
  writeFileSync(vessel, JSON.stringify(pot.vessel))
  return { folder, vessel, trace: [tracePath] }
}

async function run(flags: Parameters<typeof tune.run>[0]) {
  const out = vi.spyOn(console, 'log').mockImplementation(() => {})
  const err = vi.spyOn(console, 'error').mockImplementation(() => {})
  const code = await tune.run(flags, [])
  return { code, out: out.mock.calls.join('\n'), err: err.mock.calls.map(String) }
}

test('tune learns a pot from one evening and says how to set it', async () => {
  const { vessel, trace } = filesOf(POT)
  const { code, out, err } = await run({ vessel, trace, target: '62', json: true })
  expect(code).toBe(0)
  expect(err).toEqual([])
  const told = JSON.parse(out)
  // The evening ends with the lid off.
  const truly = labHoldDial(POT, 'off', 62)!
  expect(Math.abs(told.advice.holdDial - truly) / DIAL_MAX).toBeLessThan(0.05)
  expect(told.advice.holdDial90[0]).toBeLessThan(truly)
  expect(told.advice.holdDial90[1]).toBeGreaterThan(truly)
  const lossW = labLossW(POT, 'off', 62) - labHeatW(POT, 0, 62)
  expect(Math.abs(told.lossWAtTarget / lossW - 1)).toBeLessThan(0.1)
  const heldKJ = (POT.physics.waterJPerC + POT.physics.steelJPerC) / 1000
  expect(Math.abs(told.heatCapacityKJPerC / heldKJ - 1)).toBeLessThan(0.05)
  expect(told.deadTimeS).toBeGreaterThan(50)
  expect(told.deadTimeS).toBeLessThan(110)
  for (const { dial, steadyC90 } of told.dials) {
    // One that boils settles at the boiling point; the lab's pots stop a little lower.
    const settles = labSteadyC(POT, 'off', dial)
    expect(steadyC90[0]).toBeLessThanOrEqual(settles + 0.2)
    expect(steadyC90[1]).toBeGreaterThanOrEqual(settles)
  }
  expect(told.advice.heatDial).toBe(DIAL_MAX)
  expect(told.advice.turnDownAtC).toBeLessThan(62)
  expect(told.advice.expectedPeakC).toBeGreaterThanOrEqual(62)
  expect(told.advice.minutesToTarget).toBeGreaterThan(20)
})

test('tune has the published fields, in their order, and no other', async () => {
  const { vessel, trace } = filesOf(POT)
  const { out } = await run({ vessel, trace, target: '62', json: true })
  const told = JSON.parse(out)
  expect(Object.keys(told)).toEqual(['heatCapacityKJPerC', 'deadTimeS', 'lossWAtTarget', 'dials', 'advice'])
  expect(Object.keys(told.dials[0])).toEqual(['dial', 'watts', 'steadyC', 'steadyC90'])
  expect(Object.keys(told.advice)).toEqual([
    'holdDial',
    'holdDial90',
    'heatDial',
    'turnDownAtC',
    'expectedPeakC',
    'minutesToTarget',
  ])
  const page = read('docs/heat.md')
  const fields = [told, told.dials[0], told.advice].flatMap(Object.keys)
  expect(fields.filter((field) => !page.includes(`\`${field}\``))).toEqual([])
})

test('tune gives the same answer whatever the order of its traces', async () => {
  const { vessel, trace } = filesOf(POT)
  const late = filesOf(labPot(12, 'coil', 2), [], START + 7 * 86_400_000).trace
  const one = await run({ vessel, trace: [...trace, ...late], target: '70', json: true })
  vi.restoreAllMocks()
  const other = await run({ vessel, trace: [...late, ...trace], target: '70', json: true })
  expect(one.out).toBe(other.out)
  expect(JSON.parse(one.out).advice.holdDial).not.toBeNull()
})

test('what the traces cannot tell is null, with a sentence on standard error', async () => {
  const folder = tempFolder()
  const trace = [join(folder, 'cold.csv')]
  const rows = Array.from({ length: 60 }, (_, i) => `${new Date(START + i * 60_000).toISOString()},18.0,`)
  writeFileSync(trace[0]!, ['time,temp_c,event', ...rows].join('\n'))
  const vessel = join(folder, 'vessel.json')
  writeFileSync(vessel, JSON.stringify({ litres: 20, surroundingsC: 18, burner: { dialMax: 10 } }))
  const { code, out, err } = await run({ vessel, trace, target: '70', json: true })
  expect(code).toBe(0)
  const told = JSON.parse(out)
  expect(told.deadTimeS).toBeNull()
  expect(told.lossWAtTarget).toBeNull()
  expect(told.dials).toEqual([])
  expect(told.advice.turnDownAtC).toBeNull()
  expect(err.length).toBeGreaterThan(1)
  for (const sentence of err) expect(sentence).toMatch(/^holdfast: .+[^.]$/)
})

test('a trace of a few readings teaches nothing and says so', async () => {
  const { vessel, folder } = filesOf(POT)
  const trace = [join(folder, 'short.csv')]
  writeFileSync(trace[0]!, 'time,temp_c\n2026-03-12T17:00:00Z,20\n2026-03-12T17:01:00Z,21\n')
  const { out, err } = await run({ vessel, trace, target: '70', json: true })
  expect(JSON.parse(out).advice.holdDial).toBeNull()
  expect(err.join()).toContain('no trace')
})

test('a target under the room needs no heat', async () => {
  const { vessel, trace } = filesOf(POT)
  const { out, err } = await run({ vessel, trace, target: '10', json: true })
  expect(JSON.parse(out).advice.holdDial).toBeNull()
  expect(err.join()).toContain('no warmer than the room')
})

test('the words for a person name the pot, word advice as advice and say that the tool never switches heat', async () => {
  const { vessel, trace } = filesOf({ ...POT, vessel: { ...POT.vessel, title: 'Wren' } })
  const { out } = await run({ vessel, trace, target: '62' })
  expect(out).toContain('Wren')
  expect(out).toMatch(/turn down to about \d/)
  expect(out).toContain('should')
  expect(out).toContain('never switches heat')
})

const REFUSED: readonly (readonly [what: string, flags: Record<string, string | string[]>, says: RegExp])[] =
  [
    ['no target', {}, /--target is missing.*-5 to 105/],
    ['a target that is no number', { target: 'warm' }, /--target is "warm"/],
    ['a target that no bath has', { target: '160' }, /--target is "160"/],
    ['no vessel', { target: '70' }, /--vessel/],
    [
      'a vessel that is not there',
      { target: '70', vessel: '/nowhere/v.json' },
      /\/nowhere\/v\.json does not exist/,
    ],
  ]
for (const [what, flags, says] of REFUSED) {
  test(`tune refuses ${what} in one sentence`, async () => {
    await expect(async () => run(flags)).rejects.toThrow(says)
    await expect(async () => run(flags)).rejects.toThrow(UsageError)
  })
}

test('tune refuses a dial beyond the top of the vessel’s dial', async () => {
  const { vessel, trace } = filesOf(POT, [`${new Date(START + 3600_000).toISOString()},,dial:12`])
  await expect(async () => run({ vessel, trace, target: '70' })).rejects.toThrow(/dial:12.*dialMax is 10/)
})

test('tune takes a trace of a batch, whatever its stages are called', async () => {
  const { vessel, trace } = filesOf(POT, [`${new Date(START + 1000).toISOString()},,stage:mordant`])
  expect((await run({ vessel, trace, target: '62', json: true })).code).toBe(0)
})

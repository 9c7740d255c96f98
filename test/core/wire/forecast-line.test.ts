import { expect, test } from 'vitest'
import { startStove, stepStove } from '#core/watch/stove'
import type { StoveInput } from '#core/watch/stove-input'
import { decodePlan } from '#core/wire/plan-file'
import { forecastLine } from '#core/wire/forecast-line'

const T0 = Date.UTC(2026, 0, 10, 8)
const decoded = decodePlan({ stages: [{ id: 'dye', kind: 'hold', windowC: [65, 70], holdMin: 60 }] })

function stoveAfter(...more: readonly StoveInput[]) {
  if (!decoded.ok) throw new Error(decoded.why)
  const { plan } = decoded
  const inputs: readonly StoveInput[] = [
    { kind: 'pot', atMs: T0, potId: 'wren', pot: { title: 'Wren', vessel: null, lagS: null } },
    { kind: 'batch', atMs: T0, potId: 'wren', batchId: 1, plan, dryWeightG: null },
    ...more,
  ]
  return inputs.reduce((state, input) => stepStove(state, input).state, startStove())
}

test('a forecast of a bath that nobody sees is a line that says nothing', () => {
  const begun = { kind: 'event', atMs: T0, potId: 'wren', event: { kind: 'stage', stageId: 'dye' } } as const
  expect(forecastLine(stoveAfter(begun), 'wren', T0)).toEqual({
    kind: 'forecast',
    at: '2026-01-10T08:00:00.000Z',
    stage: 'dye',
    reachesWindowAt: null,
    reachesCoolToAt: null,
    peakC: null,
    band90C: [],
  })
})

test('outside of a stage there is no forecast', () => {
  expect(forecastLine(stoveAfter(), 'wren', T0)).toBeNull()
})

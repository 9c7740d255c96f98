import { expect, test } from 'vitest'
import { potForecast, startStove, stepStove } from '#core/watch/stove'
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

test('a forecast is told in hundredths of a degree', () => {
  const begun = { kind: 'event', atMs: T0, potId: 'wren', event: { kind: 'stage', stageId: 'dye' } } as const
  const probe = { kind: 'assign', atMs: T0, potId: 'wren', probe: 'wren', use: 'on' } as const
  const rising = Array.from({ length: 120 }, (_, i): StoveInput => {
    const tempC = 50 + i * 0.1123
    const reading = {
      kind: 'temp',
      probe: 'wren',
      atMs: T0 + i * 10_000,
      rawC: tempC,
      tempC,
      verdict: 'good',
    } as const
    return { kind: 'reading', atMs: reading.atMs, reading }
  })
  const state = stoveAfter(begun, probe, ...rising)
  const atMs = T0 + 119 * 10_000
  const told = potForecast(state, 'wren', atMs)!
  const line = forecastLine(state, 'wren', atMs) as { readonly band90C: readonly (readonly number[])[] }
  expect(line.band90C.length).toBeGreaterThan(5)
  for (const [i, [ms, lowC]] of line.band90C.entries()) {
    const [toldMs, toldLowC] = told.band90C[i]!
    expect([ms, lowC]).toEqual([toldMs, Number(toldLowC.toFixed(2))])
  }
})

import { expect, test } from 'vitest'
import { heatDial, holdDial, spreadOf, steadyC } from '#core/bath/advise'
import { faded, learnAll, withLitres, withNewBurner } from '#core/bath/evidence'
import { learnFrom } from '#core/bath/learn'
import { AT, guessPot, type PotBelief } from '#core/bath/pot-belief'
import { lossW, potModel, powerW, tuned } from '#core/bath/pot-model'
import type { PotTrace } from '#core/bath/pot-trace'
import { evening, learningEvening } from '../../kit/stove-evening.ts'
import { DIAL_MAX, labHeatW, labHoldDial, labLossW, type LabPot, labPot } from '../../kit/stove-lab.ts'

const potOf = (belief: PotBelief) => tuned(potModel(belief.vessel), belief.mean)

const traces = new Map<LabPot, PotTrace>()
/** The learning evening of a lab pot, run once. */
function eveningOf(pot: LabPot): PotTrace {
  if (!traces.has(pot)) traces.set(pot, learningEvening(pot).trace)
  return traces.get(pot)!
}
const learned = (pot: LabPot) => learnFrom(guessPot(pot.vessel), eveningOf(pot)).belief
const drySpread = (belief: PotBelief) => spreadOf(belief, (p) => p[AT.dry]!)
const off = (found: number, truth: number) => Math.abs(found / truth - 1)

const COIL = labPot(20, 'coil', 3)
const PLATE = labPot(10, 'plate', 4)

for (const [name, pot] of [
  ['coil', COIL],
  ['plate', PLATE],
] as const) {
  test(`one evening tells the losses and the full power of a pot on a ${name}`, () => {
    const belief = learned(pot)
    const roomC = pot.vessel.surroundingsC!
    // The lab's pot also loses through its element when that is cold.
    const truly = (lid: 'on' | 'off') => labLossW(pot, lid, 68) - labHeatW(pot, 0, 68)
    expect(off(lossW(potOf(belief), 'on', roomC, 68), truly('on'))).toBeLessThan(0.08)
    expect(off(lossW(potOf(belief), 'off', roomC, 68), truly('off'))).toBeLessThan(0.12)
    const fullW = labHeatW(pot, DIAL_MAX, 60) - labHeatW(pot, 0, 60)
    expect(off(powerW(potOf(belief), DIAL_MAX), fullW)).toBeLessThan(0.05)
  })

  test(`one evening tells which dial holds a lidded pot on a ${name}, within 5 % of full scale`, () => {
    const roomC = pot.vessel.surroundingsC!
    const told = holdDial(learned(pot), 70, { lid: 'on', roomC })!
    const truly = labHoldDial(pot, 'on', 70)!
    expect(Math.abs(told.value - truly) / DIAL_MAX).toBeLessThan(0.05)
    expect(told.low90).toBeLessThan(truly)
    expect(told.high90).toBeGreaterThan(truly)
  })
}

test('a trace narrows what is believed and never widens it', () => {
  const before = guessPot(COIL.vessel)
  const after = learned(COIL)
  for (let i = 0; i < before.mean.length; i++)
    expect(after.covariance[i]![i]!).toBeLessThanOrEqual(before.covariance[i]![i]! * 1.001)
  expect(after.traces).toBe(1)
})

test('a heavy plate is told from a coil by how late its heat comes', () => {
  const vessel = { ...PLATE.vessel, burner: { dialMax: DIAL_MAX } }
  const belief = learnFrom(guessPot(vessel), eveningOf(PLATE)).belief
  // 1900 J/°C warmed through 5.2 + 2.2 W/°C, give or take the seed's quarter.
  expect(potOf(belief).elementLagS).toBeGreaterThan(150)
  expect(potOf(belief).elementLagS).toBeLessThan(400)
})

test('a trace with fewer than ten means teaches nothing', () => {
  const guess = guessPot(COIL.vessel)
  const short: PotTrace = { readings: [{ atMs: 0, tempC: 20 }], events: [] }
  expect(learnFrom(guess, short)).toMatchObject({ belief: guess, misfitC: null })
  expect(learnFrom(guess, { readings: [], events: [] }).misfitC).toBeNull()
})

test('a probe laid on the bench for a minute and a half does not spoil what is learned', () => {
  const trace = eveningOf(COIL)
  const outFromMs = trace.readings[2000]!.atMs
  const pulled = trace.readings.map((r) =>
    r.atMs > outFromMs && r.atMs < outFromMs + 90_000 ? { ...r, tempC: 45 } : r,
  )
  const clean = potOf(learnFrom(guessPot(COIL.vessel), trace).belief)
  const spoilt = potOf(learnFrom(guessPot(COIL.vessel), { ...trace, readings: pulled }).belief)
  expect(off(powerW(spoilt, DIAL_MAX), powerW(clean, DIAL_MAX))).toBeLessThan(0.04)
  expect(off(lossW(spoilt, 'on', 20, 70), lossW(clean, 'on', 20, 70))).toBeLessThan(0.04)
})

test('cold water poured in is a jump, not a loss', () => {
  const pot = labPot(20, 'coil', 8)
  const first = evening(pot, [
    { dial: 10, lid: 'on', minutes: 120, untilC: 70 },
    { dial: 0, minutes: 60 },
  ])
  const poured = { ...first.end, bottomC: first.end.bottomC - 5, topC: first.end.topC - 5 }
  const rest = evening(pot, [{ dial: 0, minutes: 60 }], poured)
  const readings = [...first.trace.readings, ...rest.trace.readings]
  const topUp = { atMs: rest.trace.readings[0]!.atMs, event: { kind: 'top-up' } } as const
  const noted = learnFrom(guessPot(pot.vessel), { readings, events: [...first.trace.events, topUp] }).belief
  const truly = labLossW(pot, 'on', 65) - labHeatW(pot, 0, 65)
  expect(off(lossW(potOf(noted), 'on', pot.vessel.surroundingsC!, 65), truly)).toBeLessThan(0.12)
})

test('more traces of the same pot leave a narrower range', () => {
  const trace = eveningOf(COIL)
  const once = learnAll(COIL.vessel, [trace]).belief
  const thrice = learnAll(COIL.vessel, [trace, trace, trace]).belief
  const width = (belief: PotBelief) => {
    const { low90, high90 } = holdDial(belief, 70, { lid: 'on', roomC: COIL.vessel.surroundingsC! })!
    return high90 - low90
  }
  expect(width(thrice)).toBeLessThan(width(once))
  expect(thrice.traces).toBe(3)
})

test('what is old fades: a day later the same is believed with a wider range', () => {
  const belief = learned(COIL)
  const later = faded(belief, 10)
  expect(later.mean).toEqual(belief.mean)
  expect(drySpread(later)).toBeGreaterThan(drySpread(belief))
})

test('a new burner takes away what was known of the dial and leaves what was known of the pot', () => {
  const belief = learned(COIL)
  const vessel = { ...COIL.vessel, burner: { kind: 'gas', dialMax: 6, ratedW: 3000 } } as const
  const after = withNewBurner(belief, vessel)
  expect(after.mean[AT.dry]).toBe(belief.mean[AT.dry])
  expect(powerW(potOf(after), 6)).toBe(powerW(potOf(guessPot(vessel)), 6))
})

test('more litres in the same pot hold more heat and lose more through the wall', () => {
  const belief = learned(COIL)
  const fuller = withLitres(belief, belief.vessel.litres * 1.25)
  expect(potOf(fuller).capacityJPerC / potOf(belief).capacityJPerC).toBeGreaterThan(1.2)
  expect(lossW(potOf(fuller), 'on', 20, 70)).toBeGreaterThan(lossW(potOf(belief), 'on', 20, 70))
  expect(powerW(potOf(fuller), 5)).toBe(powerW(potOf(belief), 5))
})

test('a dial holds what it settles at, and the other way round', () => {
  const belief = learned(COIL)
  const standing = { lid: 'on', roomC: 19 } as const
  const hold = holdDial(belief, 66, standing)!
  expect(steadyC(belief, hold.value, standing).value).toBeCloseTo(66, 3)
})

test('no dial holds a bath hotter than the burner can, or colder than the room', () => {
  const weak = guessPot({ litres: 40, burner: { kind: 'plate', dialMax: 10, ratedW: 300 } })
  expect(holdDial(weak, 95, { lid: 'off', roomC: 18 })).toBeNull()
  expect(holdDial(weak, 15, { lid: 'on', roomC: 18 })).toBeNull()
})

test('the dial for heating keeps to the most degrees a minute', () => {
  const belief = learned(COIL)
  const standing = { lid: 'on', roomC: 18 } as const
  const pot = potOf(belief)
  const dial = heatDial(belief, 20, standing, 0.5)
  const rate = (60 * (powerW(pot, dial) - lossW(pot, 'on', 18, 20))) / pot.capacityJPerC
  expect(rate).toBeCloseTo(0.5, 3)
  expect(heatDial(belief, 20, standing)).toBe(DIAL_MAX)
})

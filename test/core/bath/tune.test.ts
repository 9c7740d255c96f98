import { describe, expect, test } from 'vitest'
import type { PotEvent, PotTrace } from '#core/bath/pot-trace'
import { type Tuning, tunePot } from '#core/bath/tune'
import type { Vessel } from '#core/bath/vessel'
import { LayeredPot, type LayeredSetup } from '../../kit/layered-pot.ts'

/** A dyer at a layered pot: what is done there, and what gets noted of it. */
class Dyer {
  readonly pot: LayeredPot
  readonly #events: { atMs: number; event: PotEvent }[] = []

  constructor(setup: Partial<LayeredSetup> = {}) {
    this.pot = new LayeredPot({ ...WREN, ...setup })
  }

  note(event: PotEvent): void {
    this.#events.push({ atMs: this.pot.atS * 1000, event })
  }

  turn(dial: number): void {
    this.pot.turn(dial)
    this.note({ kind: 'dial', dial })
  }

  lid(lid: 'on' | 'off'): void {
    this.pot.cover(lid === 'on')
    this.note({ kind: 'lid', lid })
  }

  /** Full, a third, low, off, and at the end the lid off. */
  evening(top = 10): this {
    this.lid('on')
    this.turn(top)
    this.pot.wait(120, 66)
    this.turn(top * 0.4)
    this.pot.wait(25, 80)
    this.turn(top * 0.2)
    this.pot.wait(35)
    this.turn(0)
    this.pot.wait(60)
    this.lid('off')
    this.pot.wait(30)
    return this
  }

  get trace(): PotTrace {
    const readings = this.pot.rows.map(({ atS, tempC }) => ({ atMs: atS * 1000, tempC }))
    return { readings, events: this.#events }
  }
}

const WREN: LayeredSetup = {
  litres: 12,
  diameterM: 0.28,
  emptyKg: 2.2,
  fullW: 1500,
  curve: (share) => share ** 1.3,
  plateJPerC: 700,
  touchWPerC: 8,
  dialMax: 10,
  roomC: 20,
  startC: 14,
  seed: 3,
  stepC: 0.1,
  everyS: 5,
  lagS: 12,
}
const NAMED: Vessel = {
  litres: 12,
  diameterCm: 28,
  surroundingsC: 20,
  burner: { kind: 'coil', dialMax: 10, ratedW: 1500 },
}
const BARE: Vessel = { litres: 12, burner: { dialMax: 10 } }

const kinds = (tuning: Tuning): string[] => tuning.missing.map((missing) => missing.kind)

/** What is wrong with an answer: numbers that are none, ranges without their value, absurd advice. */
function wrongIn(
  { dials, advice, lossWAtTarget, deadTimeS }: Tuning,
  targetC: number,
  dialMax: number,
): string[] {
  const { hold, turnDownAtC, expectedPeakC, toTargetS, heatDial } = advice
  const numbers = { lossWAtTarget, deadTimeS, turnDownAtC, expectedPeakC, toTargetS, heatDial }
  const bad = Object.entries(numbers).flatMap(([name, value]) =>
    value === null || (Number.isFinite(value) && value > 0) ? [] : [`${name} is ${value}`],
  )
  for (const ranged of [hold, ...dials.map(({ steady }) => steady)])
    if (
      ranged !== null &&
      !(ranged.low90 <= ranged.value && ranged.value <= ranged.high90 && ranged.low90 < ranged.high90)
    )
      bad.push(`range ${JSON.stringify(ranged)}`)
  if ((hold?.high90 ?? 0) > dialMax) bad.push('hold beyond the dial')
  if ((turnDownAtC ?? 0) > targetC) bad.push(`turn down at ${turnDownAtC}`)
  if (Math.abs((expectedPeakC ?? targetC) - targetC) > 6) bad.push(`peak ${expectedPeakC}`)
  return bad
}

const expectSensible = (...of: Parameters<typeof wrongIn>) => expect(wrongIn(...of)).toEqual([])

describe('a dial that was noted settles within the range that is told', () => {
  const ranges: readonly (readonly [name: string, setup: Partial<LayeredSetup>, vessel: Vessel])[] = [
    ['as it should be', {}, NAMED],
    ['with a vessel file of litres and a dial alone', {}, BARE],
    ['with a probe of half degrees, once a minute', { stepC: 0.5, everyS: 60 }, NAMED],
    ['with a probe of half degrees, once a second', { stepC: 0.5, everyS: 1 }, NAMED],
    ['with the room told 3 °C too warm', {}, { ...NAMED, surroundingsC: 23 }],
    ['with the litres told 10 % too many', {}, { ...NAMED, litres: 13.2 }],
    ['with water from a cold well', { startC: 8 }, NAMED],
    ['with a dial in per cent', { dialMax: 100 }, { ...NAMED, burner: { kind: 'induction', dialMax: 100 } }],
    ['with a dial of three steps', { dialMax: 3 }, { ...NAMED, burner: { kind: 'induction', dialMax: 3 } }],
  ]
  // Where each of the two lower dials truly settles without a lid, by running the same pot to its end.
  const share = [0.2, 0.4]
  const truth = share.map((part) => new LayeredPot(WREN).settledC(part * 10, false))
  test.each(ranges)('%s', (_name, setup, vessel) => {
    const { dialMax } = vessel.burner
    const tuning = tunePot(vessel, [new Dyer(setup).evening(dialMax).trace], 70)
    expectSensible(tuning, 70, dialMax)
    for (const [i, settles] of truth.entries()) {
      const { steady } = tuning.dials.find(({ dial }) => Math.abs(dial - share[i]! * dialMax) < 1e-9)!
      // The layers leave the probe a quarter of a degree beside the mean.
      expect(steady!.low90).toBeLessThan(settles + 0.3)
      expect(steady!.high90).toBeGreaterThan(settles - 0.3)
      expect(steady!.high90 - steady!.low90).toBeLessThan(6)
    }
    expect(tuning.advice.hold).not.toBeNull()
  })
})

test('a kettle that boils in five minutes is no probe out of its bath', () => {
  const dyer = new Dyer({
    litres: 1.7,
    diameterM: 0.15,
    emptyKg: 0.8,
    fullW: 2200,
    plateJPerC: 150,
    touchWPerC: 30,
    dialMax: 1,
    everyS: 2,
  })
  dyer.turn(1)
  dyer.pot.wait(10)
  const tuning = tunePot({ litres: 1.7, burner: { dialMax: 1 } }, [dyer.trace], 80)
  expectSensible(tuning, 80, 1)
  // 1.7 kg · 4.18 kJ and 0.8 kg of steel · 0.5 kJ.
  expect(Math.abs(tuning.heatCapacityJPerC / 7500 - 1)).toBeLessThan(0.05)
  expect(Math.abs(tuning.dials[0]!.watts! / 2200 - 1)).toBeLessThan(0.08)
  expect(tuning.advice.hold).toBeNull()
  expect(kinds(tuning)).toContain('hold-uncertain')
})

test('a bath that rose before its dial was first noted teaches nothing of that time', () => {
  const dyer = new Dyer({ startC: 30 })
  dyer.pot.turn(7)
  dyer.pot.wait(50)
  const untold = tunePot(BARE, [dyer.trace], 70)
  expect(kinds(untold)).toContain('no-trace')
  expectSensible(untold, 70, 10)
  dyer.turn(2)
  dyer.pot.wait(60)
  dyer.turn(0)
  dyer.pot.wait(60)
  const tuning = tunePot(NAMED, [dyer.trace], 70)
  expectSensible(tuning, 70, 10)
  // 1500 W · 0.2^1.3, and a little of it warms the room.
  expect(Math.abs(tuning.dials[0]!.watts! / 180 - 1)).toBeLessThan(0.15)
})

test('a trace whose dial was turned and not noted is not understood, and says so', () => {
  const dyer = new Dyer()
  dyer.turn(10)
  for (let n = 0; n < 3; n++) {
    dyer.pot.turn(10)
    dyer.pot.wait(60, 85)
    dyer.pot.turn(0)
    dyer.lid('off')
    dyer.pot.wait(120, 50)
    dyer.lid('on')
  }
  const tuning = tunePot(NAMED, [dyer.trace], 70)
  expect(kinds(tuning)).toContain('unlike')
  expect(tuning.advice.hold).toBeNull()
  expectSensible(tuning, 70, 10)
})

test('a cool-down alone tells the loss, and of the dial nothing', () => {
  const dyer = new Dyer({ startC: 85 })
  dyer.lid('on')
  dyer.turn(0)
  dyer.pot.wait(180)
  const tuning = tunePot(NAMED, [dyer.trace], 70)
  expect(tuning.lossWAtTarget).toBeGreaterThan(80)
  expect(tuning.lossWAtTarget).toBeLessThan(115)
  expect(tuning.advice).toEqual({
    hold: null,
    heatDial: null,
    turnDownAtC: null,
    expectedPeakC: null,
    toTargetS: null,
  })
  expect(kinds(tuning)).toContain('no-heat')
  const parts = tuning.missing.flatMap((missing) => (missing.kind === 'open' ? [missing.what] : []))
  expect(parts).toEqual(['heatDial', 'turnDownAtC', 'expectedPeakC', 'toTargetS'])
})

test('what was never learned has a word for each part of the advice', () => {
  const { missing } = tunePot(NAMED, [{ readings: [], events: [] }], 70)
  expect(missing.map((one) => (one.kind === 'open' ? one.what : one.kind))).toEqual([
    'no-trace',
    'dead-time',
    'loss',
    'hold',
    'heatDial',
    'turnDownAtC',
    'expectedPeakC',
    'toTargetS',
  ])
})

test('a heat-up alone leaves the dial that holds open unless its range is narrow', () => {
  const dyer = new Dyer()
  dyer.turn(10)
  dyer.pot.wait(90, 85)
  const tuning = tunePot(BARE, [dyer.trace], 70)
  expect(tuning.advice.heatDial).toBe(10)
  expect(tuning.advice.hold).toBeNull()
  expect(kinds(tuning)).toContain('hold-uncertain')
})

test('a pot that never had its lid noted is taken for open when it steams like one', () => {
  for (const [lid, on] of [
    ['off', false],
    ['on', true],
  ] as const) {
    const dyer = new Dyer()
    dyer.pot.cover(on)
    dyer.turn(10)
    dyer.pot.wait(90, 75)
    dyer.turn(0)
    dyer.pot.wait(90)
    const tuning = tunePot(NAMED, [dyer.trace], 70)
    expect([tuning.standing.lid, tuning.lidJudged]).toEqual([lid, true])
  }
})

test('no dial holds more than the boiling point, or a target under the lowest mark', () => {
  const trace = new Dyer().evening().trace
  const boils = tunePot(NAMED, [trace], 103)
  expect(kinds(boils)).toContain('target-boils')
  expect([boils.advice.hold, boils.lossWAtTarget]).toEqual([null, null])
  const high = tunePot({ ...NAMED, altitudeM: 2000 }, [trace], 95)
  // 2000 m: water boils at 93.3 °C (US Standard Atmosphere 1976 and IAPWS-IF97).
  expect(kinds(high)).toContain('target-boils')
  expect(kinds(tunePot(NAMED, [trace], 20.5))).toContain('too-strong')
  const weak = new Dyer({ fullW: 200 }).evening().trace
  expect(kinds(tunePot({ ...NAMED, burner: { dialMax: 10 } }, [weak], 90))).toContain('too-weak')
})

test('an evening cut in two files tells about what the whole tells, with wider ranges', () => {
  const { readings, events } = new Dyer().evening().trace
  const cutMs = readings[Math.floor(readings.length / 2)]!.atMs
  const part = (isFirst: boolean): PotTrace => ({
    readings: readings.filter((r) => r.atMs < cutMs === isFirst),
    events: events.filter((e) => e.atMs < cutMs === isFirst),
  })
  const whole = tunePot(NAMED, [{ readings, events }], 70).advice.hold!
  const parts = tunePot(NAMED, [part(true), part(false)], 70).advice.hold!
  expect(Math.abs(parts.value / whole.value - 1)).toBeLessThan(0.05)
  expect(parts.high90 - parts.low90).toBeGreaterThan(whole.high90 - whole.low90)
})

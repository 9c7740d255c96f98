import { expect, test } from 'vitest'
import { steadyC } from '#core/bath/advise'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import type { PotEvent } from '#core/bath/pot-trace'
import type { Vessel } from '#core/bath/vessel'
import { LayeredPot } from '../../kit/layered-pot.ts'

interface Kitchen {
  readonly litres: number
  readonly watts: number
  readonly bend: number
  readonly roomC: number
}

/** Where a pot is told to settle at 3 of 10 after an evening seen through a probe of such steps, °C. */
function toldC({ litres, watts, bend, roomC }: Kitchen, stepC: number): number {
  const diameterM = Math.cbrt((4 * litres) / 950 / Math.PI)
  const events: { atMs: number; event: PotEvent }[] = []
  const pot = new LayeredPot({
    litres,
    diameterM,
    emptyKg: 0.7 + 0.12 * litres,
    fullW: watts,
    curve: (share) => share ** bend,
    plateJPerC: 500,
    touchWPerC: 8,
    dialMax: 10,
    roomC,
    startC: 14,
    seed: litres,
    stepC,
    everyS: 10,
    lagS: 12,
  })
  const turn = (dial: number) => {
    pot.turn(dial)
    events.push({ atMs: pot.atS * 1000, event: { kind: 'dial', dial } })
  }
  turn(10)
  pot.wait(200, 70)
  turn(3)
  pot.wait(40)
  turn(0)
  pot.wait(75)
  const vessel: Vessel = {
    litres,
    diameterCm: 100 * diameterM,
    surroundingsC: Math.round(roomC),
    burner: { kind: 'coil', dialMax: 10, ratedW: watts / 0.7 },
  }
  const readings = pot.rows.map(({ atS, tempC }) => ({ atMs: atS * 1000, tempC }))
  return steadyC(learnFrom(guessPot(vessel), { readings, events }).belief, 3, { lid: 'on', roomC }).value
}

// Once a level that stood for minutes was taken at its word: two of these came out 1.6 and 2.2 °C apart.
test.each<Kitchen>([
  { litres: 20, watts: 330, bend: 0.9, roomC: 19 },
  { litres: 20, watts: 500, bend: 1.2, roomC: 17 },
  { litres: 40, watts: 750, bend: 1.1, roomC: 21 },
  { litres: 40, watts: 900, bend: 1.3, roomC: 19 },
])('steps of half a degree tell the pot as fine steps do: $litres L, $watts W', (kitchen) => {
  const [fineC, coarseC] = [0.0625, 0.5].map((stepC) => toldC(kitchen, stepC)) as [number, number]
  expect(Math.abs(coarseC - fineC)).toBeLessThan(1.2)
})

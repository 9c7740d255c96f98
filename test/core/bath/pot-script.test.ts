import { expect, test } from 'vitest'
import { beginScript, liveUntil } from '#core/bath/pot-script'
import { startPot } from '#core/bath/simulated-pot'

const vessel = { litres: 12, burner: { dialMax: 10, ratedW: 2000 } }
const cold = () => startPot({ vessel, startC: 20 })

test('a change is made at its own time, however coarse the looks are', () => {
  const script = [{ atS: 600, dial: 10 }]
  const coarse = liveUntil(beginScript(cold(), script), 1200)
  let fine = beginScript(cold(), script)
  for (let atS = 0; atS <= 1200; atS += 5) fine = liveUntil(fine, atS)
  expect(coarse.pot.waterC).toBeCloseTo(fine.pot.waterC, 6)
  expect(coarse.pot.waterC).toBeGreaterThan(cold().waterC + 3)
})

test('a script that begins before the first moment has been lived through when that is reached', () => {
  const before = liveUntil(beginScript(cold(), [{ atS: -600, dial: 10 }]), 0)
  const after = liveUntil(beginScript(cold(), [{ atS: 0, dial: 10 }]), 600)
  expect(before.pot.waterC).toBeCloseTo(after.pot.waterC, 6)
})

test('a probe that is unplugged is silent until it is put back', () => {
  const script = [
    { atS: 10, probe: 'unplugged' as const },
    { atS: 20, probe: 'in' as const },
  ]
  const begun = beginScript(cold(), script)
  expect([9, 10, 19, 20].map((atS) => liveUntil(begun, atS).isPlugged)).toEqual([true, false, false, true])
})

test('looking back changes nothing', () => {
  const at100 = liveUntil(beginScript(cold(), []), 100)
  expect(liveUntil(at100, 50)).toEqual(at100)
})

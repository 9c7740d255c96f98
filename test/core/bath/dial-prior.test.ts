import { expect, test } from 'vitest'
import { DIAL_NODES, dialPrior } from '#core/bath/dial-prior'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import { potModel, powerW, tuned } from '#core/bath/pot-model'
import { BURNER_KINDS, type Vessel } from '#core/bath/vessel'
import { evening } from '../../kit/stove-evening.ts'
import { labHeatW, labPot } from '../../kit/stove-lab.ts'

const shareAt = (kind: Vessel['burner']['kind'], share: number): number =>
  Math.exp(
    dialPrior({ dialMax: 10, ...(kind === undefined ? {} : { kind }) }).logShares[
      DIAL_NODES.indexOf(share as (typeof DIAL_NODES)[number])
    ]!,
  )

test('more dial is more power, and the top is all of it', () => {
  for (const kind of [...BURNER_KINDS, undefined]) {
    const { logShares } = dialPrior({ dialMax: 10, ...(kind === undefined ? {} : { kind }) })
    expect(logShares.at(-1)).toBe(0)
    for (let i = 1; i < logShares.length; i++) expect(logShares[i]!).toBeGreaterThan(logShares[i - 1]!)
  }
})

// A straight dial and one with a least flame of a tenth are both common practice, no source.
test('a straight dial lies within two spreads of what is expected of any burner', () => {
  for (const kind of [...BURNER_KINDS, undefined]) {
    const { logShares, covariance } = dialPrior({ dialMax: 10, ...(kind === undefined ? {} : { kind }) })
    for (const [i, share] of DIAL_NODES.entries()) {
      const apart = Math.abs(logShares[i]! - Math.log(share))
      expect(apart).toBeLessThan(2 * Math.sqrt(covariance[i]![i]!))
    }
  }
})

test('a gas tap is expected to burn more at its lowest than a coil', () => {
  expect(shareAt('gas', 0.05)).toBeGreaterThan(1.5 * shareAt('coil', 0.05))
  expect(shareAt(undefined, 0.05)).toBeGreaterThan(shareAt('coil', 0.05))
})

// Two noted dials with one between them: the lab's knobs are bent and S-shaped in ways of their own.
test('between two noted dials the power is known within 8 % on average', () => {
  const errors = BURNER_KINDS.flatMap((kind) =>
    [1, 2, 3].map((seed) => {
      const pot = labPot(20, kind, 70 + seed)
      const doings = [
        { dial: 10, lid: 'on', minutes: 120, untilC: 60 },
        { dial: 3.5, minutes: 30 },
        { dial: 1.5, minutes: 40 },
        { dial: 0, minutes: 40 },
      ] as const
      const { belief } = learnFrom(guessPot(pot.vessel), evening(pot, doings).trace)
      const found = powerW(tuned(potModel(pot.vessel), belief.mean), 2.5)
      const truly = labHeatW(pot, 2.5, 60) - labHeatW(pot, 0, 60)
      return Math.abs(found / truly - 1)
    }),
  )
  expect(errors.reduce((sum, e) => sum + e, 0) / errors.length).toBeLessThan(0.08)
})

import { expect, test } from 'vitest'
import { guessPot } from '#core/bath/pot-belief'
import type { PotEvent } from '#core/bath/pot-trace'
import type { Vessel } from '#core/bath/vessel'
import { burnerTraces } from '../../../server/serve/heat/burner-page.ts'
import { teach } from '../../../server/serve/heat/teach.ts'

const HERON: Vessel = { litres: 20, surroundingsC: 20, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } }

/** A bath that swings up and down by 30 °C an hour while the dial is noted to stand at full. */
const swinging = Array.from({ length: 4 * 360 }, (_, i) => ({
  atMs: i * 10_000,
  tempC: 55 - 25 * Math.cos((2 * Math.PI * i) / 720),
}))
const events: { atMs: number; event: PotEvent }[] = [{ atMs: 0, event: { kind: 'dial', dial: 10 } }]

test('a fill that this pot can not have given teaches nothing, and the page says why', () => {
  const before = guessPot(HERON)
  const day = { vessel: HERON, trace: { readings: swinging, events }, stages: [], told: [] }
  const lesson = teach(before, day)
  expect(lesson.isLike).toBe(false)
  expect(lesson.belief).toBe(before)
  const fill = { potId: 'heron', fromMs: 0, toMs: 14_400_000, batchId: 1, litres: 20, lesson }
  expect(burnerTraces([fill], new Map())[0]!.why).toBe('unlike')
  // What an older version kept has no word of it, and was learned from.
  const { isLike: _, ...older } = lesson
  expect(burnerTraces([{ ...fill, lesson: older }], new Map())[0]!.why).toBe('learned')
})

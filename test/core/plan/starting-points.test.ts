import { expect, test } from 'vitest'
import { FIBRE_LIMITS } from '#core/plan/fibre'
import { STARTING_POINTS } from '#core/plan/starting-points'
import { decodePlan, encodePlan } from '#core/wire/plan-file'

test.each(STARTING_POINTS.map((point) => [point.id, point] as const))(
  '%s can be saved as it stands, and nothing in it is unusual',
  (_id, point) => {
    expect(decodePlan(encodePlan(point.plan))).toEqual({ ok: true, plan: point.plan, warnings: [] })
  },
)

test('there are starting points for wool, silk and cellulose, and for a dozen dyes', () => {
  const fibres = new Set(STARTING_POINTS.map((point) => point.fibre))
  expect([...fibres].sort()).toEqual(['cellulose', 'silk', 'wool'])
  const dyes = new Set(STARTING_POINTS.flatMap((p) => /^(?!prepare)([a-z]+)-/.exec(p.id)?.[1] ?? []))
  expect(dyes.size).toBeGreaterThanOrEqual(12)
  expect(new Set(STARTING_POINTS.map((p) => p.id)).size).toBe(STARTING_POINTS.length)
})

test('every stage says that its values are common practice', () => {
  const silent = STARTING_POINTS.flatMap((p) => p.plan.stages).filter(
    (s) => !s.note?.includes('common practice'),
  )
  expect(silent).toEqual([])
})

test('no starting value is hotter than the goods bear', () => {
  const over = STARTING_POINTS.flatMap(({ fibre, plan }) =>
    plan.stages.filter((s) => 'ceilingC' in s && s.ceilingC > FIBRE_LIMITS[fibre].ceilingC),
  )
  expect(over).toEqual([])
})

const stageOf = (id: string, stageId: string) =>
  STARTING_POINTS.find((p) => p.id === id)?.plan.stages.find((s) => s.id === stageId)

// Published dyers' instructions (several; see the page on trade sources): clear madder red browns over 71 to
// 75 °C, one hour at 60 to 70 °C; yellows and logwood come out of the bath, they don't stay overnight.
test('madder red stays under 72 °C, and weld and logwood must come out', () => {
  expect(stageOf('madder-red-wool', 'dye')).toMatchObject({ ceilingC: 71, windowC: [62, 69] })
  expect(stageOf('weld-wool', 'cool')).toMatchObject({ outByMin: 150 })
  expect(stageOf('logwood-wool', 'cool')).toMatchObject({ outByMin: 120 })
  expect(stageOf('madder-red-wool', 'cool')).not.toHaveProperty('outByMin')
})

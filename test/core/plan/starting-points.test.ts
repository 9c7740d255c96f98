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

// The trade's table of windows and ceilings, °C, as published or common practice; dyers' sources differ by several degrees.
test.each([
  ['madder-red-wool', 60, 70, 72],
  ['madder-red-cellulose', 60, 71, 71],
  ['madder-brick-wool', 82, 90, 90],
  ['weld-wool', 71, 82, 85],
  ['weld-cellulose', 65, 80, 82],
  ['osage-wool', 71, 82, 82],
  ['marigold-wool', 71, 82, 85],
  ['onion-wool', 75, 85, 90],
  ['cochineal-wool', 80, 88, 90],
  ['cochineal-silk', 74, 82, 85],
  ['lac-wool', 80, 88, 90],
  ['lac-silk', 74, 82, 85],
  ['logwood-wool', 60, 75, 82],
  ['logwood-silk', 60, 75, 82],
  ['sappan-wool', 65, 80, 85],
  ['cutch-cellulose', 82, 93, 93],
  ['pomegranate-cellulose', 75, 88, 93],
  ['walnut-wool', 80, 90, 90],
  ['annatto-cellulose', 82, 88, 93],
])('%s keeps inside %d to %d °C and under %d °C', (id, low, high, most) => {
  const bath = stageOf(id, 'dye')
  if (bath?.kind !== 'hold') throw new Error('no dye bath')
  expect(bath.windowC[0]).toBeGreaterThanOrEqual(low)
  expect(bath.windowC[1]).toBeLessThanOrEqual(high)
  expect(bath.ceilingC).toBeLessThanOrEqual(most)
})

const order = (id: string) => STARTING_POINTS.find((p) => p.id === id)?.plan.stages.map((s) => s.id)

// Published chains for cotton and linen: scour, soak an hour or two, tannin, alum, chalk, rinse, dye; yellows and logwood never overnight.
test('cotton and linen are soaked before tannin or acetate, in the trade’s order', () => {
  expect(order('prepare-cellulose')).toEqual([
    'scour',
    'scour-rinse',
    'pre-soak',
    'tannin',
    'mordant',
    'after-bath',
    'mordant-rinse',
  ])
  expect(order('prepare-cellulose-acetate')?.slice(2, 5)).toEqual(['pre-soak', 'mordant', 'cure'])
  const leave = STARTING_POINTS.filter((p) => /^(weld|osage|marigold|logwood)/.test(p.id))
  expect(leave.length).toBeGreaterThanOrEqual(6)
  for (const { id } of leave) expect(stageOf(id, 'cool')).toHaveProperty('outByMin')
})

import { expect, test } from 'vitest'
import { CAUTION_NAMES, type CautionTexts, cautionsOf } from '#core/plan/cautions'
import { fibreKinds } from '#core/plan/fibre'
import type { HoldStage, Plan, Stage } from '#core/plan/plan'
import { ENGLISH_CAUTIONS } from '#core/words/english-cautions'
import { planWarningText } from '#core/words/plan-warning-text'
import { warnPlan } from '#core/plan/warn-plan'
import { decodePlan } from '#core/wire/plan-file'

const HOLD: HoldStage = {
  id: 'dye',
  title: 'Dye',
  kind: 'hold',
  windowC: [70, 75],
  ceilingC: 80,
  holdMin: 60,
  goods: true,
  additives: [],
}
const READER = { unit: 'C', zone: 'UTC', language: 'en' } as const
const say = (stage: Stage) => cautionsOf(stage, ENGLISH_CAUTIONS)
const COOL: Stage = { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 35, additives: [] }
const planOf = (fibre: string, hold: Partial<HoldStage>, rest: readonly Stage[] = [COOL]): Plan => ({
  title: 't',
  fibre,
  stages: [{ ...HOLD, ...hold }, ...rest],
})
const kindsOf = (plan: Plan, place = { boilC: 100, airC: 20 }) => warnPlan(plan, place).map((w) => w.kind)

test('an ordinary wool bath with a cool-down after it warns of nothing', () => {
  expect(warnPlan(planOf('wool', { maxHeatingCPerMin: 1.5, turnEveryMin: 10 }))).toEqual([])
})

// Usual ceilings 85 / 90 / 93 °C: a published dyers' guide gives them as 185 / 195 / 200 °F; common practice.
test.each([
  ['silk', 85],
  ['wool', 90],
  ['cotton', 93],
])('a ceiling over what %s bears, %i °C, warns; one on it does not', (fibre, limitC) => {
  expect(kindsOf(planOf(fibre, { ceilingC: limitC }))).toEqual([])
  expect(warnPlan(planOf(fibre, { ceilingC: limitC + 0.5 }))).toMatchObject([
    { kind: 'ceiling-over-fibre', limitC },
  ])
})

test('of two fibres in one bath the tenderer governs, and an extraction without goods is bound by neither', () => {
  expect(warnPlan(planOf('wool and silk', { ceilingC: 88 }))).toMatchObject([{ fibre: 'silk', limitC: 85 }])
  expect(kindsOf(planOf('silk', { windowC: [88, 92], ceilingC: 95, goods: false }))).toEqual([])
})

test('fibres are recognised by word, not by part of a word', () => {
  expect(fibreKinds('Merino 4-ply')).toEqual(['wool'])
  expect(fibreKinds('Baumwolle')).toEqual(['cellulose'])
  expect(fibreKinds('Algodón')).toEqual(['cellulose'])
  expect(fibreKinds('linoleum')).toEqual([])
  expect(fibreKinds(undefined)).toEqual([])
})

test('a window that the local boiling point cuts off warns where the plan is written', () => {
  // 2000 m: 93.4 °C, 2500 m: 91.7 °C (standard atmosphere).
  const cotton = planOf('cotton', { windowC: [85, 92], ceilingC: 93 })
  expect(kindsOf(cotton)).toEqual([])
  expect(kindsOf(cotton, { boilC: 93.4, airC: 20 })).toEqual([])
  expect(kindsOf(cotton, { boilC: 92.5, airC: 20 })).toEqual(['ceiling-over-boil'])
  expect(kindsOf(cotton, { boilC: 91.7, airC: 20 })).toEqual(['top-over-boil'])
  expect(kindsOf(cotton, { boilC: 84, airC: 20 })).toEqual(['window-over-boil'])
})

test('wool and silk warn over 1.5 °C a minute, cellulose over 2', () => {
  expect(kindsOf(planOf('silk', { maxHeatingCPerMin: 1.6 }))).toEqual(['fast-heating'])
  expect(kindsOf(planOf('wool', { maxHeatingCPerMin: 1.6 }))).toEqual(['fast-heating'])
  expect(kindsOf(planOf('linen', { maxHeatingCPerMin: 1.6 }))).toEqual([])
  expect(kindsOf(planOf('linen', { maxHeatingCPerMin: 2.1 }))).toEqual(['fast-heating'])
})

test('unusual times, turning, amounts and ratios warn', () => {
  expect(kindsOf(planOf('linen', { holdMin: 5 }))).toEqual(['short-hold'])
  expect(kindsOf(planOf('linen', { holdMin: 300 }))).toEqual(['long-hold'])
  expect(kindsOf(planOf('linen', { outByMin: 45 }))).toEqual(['out-before-done'])
  expect(kindsOf(planOf('linen', { turnEveryMin: 30 }))).toEqual(['rare-turning'])
  expect(kindsOf(planOf('linen', { additives: [{ name: 'weld', percentWof: 1000 }] }))).toEqual([
    'odd-amount',
  ])
  expect(kindsOf(planOf('linen', { liquorRatio: 5 }))).toEqual(['odd-ratio'])
})

test('a window too narrow, a ceiling too close and no ceiling warn', () => {
  expect(kindsOf(planOf('linen', { windowC: [70, 71] }))).toEqual(['narrow-window'])
  expect(kindsOf(planOf('linen', { ceilingC: 75.5 }))).toEqual(['ceiling-close'])
  const { ceilingC: _, ...open } = HOLD
  expect(kindsOf({ title: 't', fibre: 'linen', stages: [open] })).toEqual(['no-ceiling'])
})

test('pH hard on the fibre or its mordant warns', () => {
  expect(kindsOf(planOf('wool', { phRange: [6, 9] }))).toEqual(['ph-unkind'])
  expect(kindsOf(planOf('linen', { phRange: [5, 7] }))).toEqual(['ph-unkind'])
  expect(kindsOf(planOf('linen', { phRange: [7, 8] }))).toEqual([])
})

test('wool that is lifted hot warns; silk, or wool that cools or goes on to the next hot bath, does not', () => {
  expect(kindsOf(planOf('wool', {}, []))).toEqual(['lifted-hot'])
  expect(kindsOf(planOf('silk', {}, []))).toEqual([])
  expect(kindsOf(planOf('wool', {}, [{ ...HOLD, id: 'second' }, COOL]))).toEqual([])
})

test('a cool-down to the temperature of the room warns that its end may never come', () => {
  expect(kindsOf(planOf('wool', {}, [{ ...COOL, coolToC: 21 }]))).toEqual(['cools-long'])
})

test('a warning is a sentence with the stage, the number found and the usual one', () => {
  expect(
    warnPlan(planOf('silk', { ceilingC: 90 })).map((w) => planWarningText(w, w.stageId, READER)),
  ).toEqual(['stage "dye": the ceiling of 90 °C is over what silk usually bears, 85 °C'])
})

test('the same warning in German and °F, under the name that the stage has on the page', () => {
  const german = { unit: 'F', zone: 'UTC', language: 'de-DE' } as const
  const [ceiling] = warnPlan(planOf('silk', { ceilingC: 90.5 }))
  // 90.5 °C = 90.5 · 9/5 + 32 = 194.9 °F, 85 °C = 185 °F.
  expect(planWarningText(ceiling!, 'Krappbad', german)).toBe(
    'Stufe „Krappbad“: die Obergrenze von 194,9 °F liegt über dem, was Seide gewöhnlich verträgt, 185 °F',
  )
})

test('warnings do not stand in the way of a plan', () => {
  const decoded = decodePlan(planOf('silk', { ceilingC: 90, holdMin: 3 }))
  expect(decoded).toMatchObject({
    ok: true,
    warnings: [expect.stringContaining('85 °C'), expect.any(String)],
  })
})

test('a hot stage shows the cautions of heat, a mordant those of its dust, a cold rest none', () => {
  const hot = say({ ...HOLD, additives: [{ name: 'potassium alum', percentWof: 12 }] }).join(' ')
  expect(hot).toMatch(/scalds/)
  expect(hot).toMatch(/Never leave a lit burner alone/)
  expect(hot).toMatch(/no safety device/)
  expect(hot).toMatch(/Mordant dust/)
  expect(hot).toMatch(/Local codes/)
  expect(say({ id: 'r', title: 'r', kind: 'rest', minutes: 5, additives: [] })).toEqual([])
  expect(say({ ...HOLD, additives: [{ name: 'Pretinned pot', gPerL: 1 }] }).join(' ')).not.toMatch(
    /poisonous/,
  )
})

const cautionsBeside = (name: string) =>
  cautionsOf(
    { id: 'r', title: 'r', kind: 'rest', minutes: 5, additives: [{ name, gPerL: 1 }] },
    CAUTION_WORDS,
  )

test('salts, alkalis and acids are warned of by their German names too, also at the end of a compound', () => {
  expect(cautionsBeside('Kalialaun')).toContain('mordant-dust')
  expect(cautionsBeside('Aluminiumacetat')).toContain('mordant-dust')
  expect(cautionsBeside('Kupfersulfat')).toContain('copper')
  expect(cautionsBeside('Eisensulfat')).toContain('iron')
  expect(cautionsBeside('Zinnsalz')).toContain('poison-metals')
  expect(cautionsBeside('Kaliumdichromat')).toContain('poison-metals')
  expect(cautionsBeside('gelöschter Kalk')).toContain('alkali')
  expect(cautionsBeside('Waschsoda')).toContain('alkali')
  expect(cautionsBeside('Galläpfel, gemahlen')).toContain('fine-powder')
  expect(cautionsBeside('Krappextrakt')).toContain('fine-powder')
  expect(cautionsBeside('Natriumdithionit')).toContain('reducer')
  expect(cautionsBeside('Zitronensäure')).toContain('acid')
  expect(cautionsBeside('Krapp')).toEqual([])
})

/** Each caution told by its own name. */
const CAUTION_WORDS = Object.fromEntries(CAUTION_NAMES.map((name) => [name, name])) as CautionTexts

const cooled = (fibre: string, maxCoolingCPerMin: number) =>
  warnPlan(planOf(fibre, {}, [{ ...COOL, kind: 'cool', coolToC: 35, maxCoolingCPerMin }]))

test('wool cooled faster than 1 °C a minute warns, silk has no usual bound (common practice)', () => {
  expect(cooled('wool', 1)).toEqual([])
  expect(cooled('wool', 1.1)).toMatchObject([{ kind: 'fast-cooling', rateCPerMin: 1.1, usualCPerMin: 1 }])
  expect(cooled('silk', 5)).toEqual([])
})

test('a window that ends on the boiling point is cut off by it', () => {
  expect(
    warnPlan(planOf('cotton', { windowC: [85, 92], ceilingC: 93 }), { boilC: 92, airC: 20 }),
  ).toMatchObject([{ kind: 'top-over-boil', topC: 92, boilC: 92 }])
  expect(kindsOf(planOf('cotton', { windowC: [85, 91.9], ceilingC: 93 }), { boilC: 92, airC: 20 })).toEqual([
    'ceiling-over-boil',
  ])
})

import { expect, test } from 'vitest'
import { correctionsOf } from '#core/batch/corrections'
import { ownCorrections } from '#core/batch/own-corrections'
import { currentRecord, standingLines } from '#core/batch/current-record'
import { isBackDated } from '#core/batch/is-back-dated'
import type { LineOf, RecordBodies, RecordKind, RecordLine } from '#core/batch/record-line'

const T0 = Date.UTC(2026, 2, 12, 8, 0, 0)
let nextId = 1
type Frame = Partial<Pick<RecordLine, 'atMs' | 'notedMs' | 'who' | 'replaces'>>
function line<K extends RecordKind>(kind: K, body: RecordBodies[K], frame: Frame = {}): RecordLine {
  const id = nextId++
  const stamps = { id, atMs: T0 + id * 1000, notedMs: T0 + id * 1000 }
  return { ...stamps, who: 'Ash', replaces: null, ...frame, kind, body } as LineOf<K>
}
const weighing = (weighedG: number, frame: Frame = {}) =>
  line('weighing', { stageId: 'dye', additive: 'madder', plannedG: 400, weighedG }, frame)

test('a correction stands in the place of what it corrects, and both stay on record', () => {
  const wrong = weighing(40)
  const right = weighing(400, { replaces: wrong.id, who: 'Bryn' })
  expect(currentRecord([wrong, right]).weighings.map((w) => w.body.weighedG)).toEqual([400])
  expect(correctionsOf([wrong, right])).toContainEqual({
    lineId: wrong.id,
    kind: 'weighing',
    field: 'weighedG',
    from: 40,
    to: 400,
    who: 'Bryn',
    notedMs: right.notedMs,
  })
})

test('a correction of a correction leaves the last one standing and tells both', () => {
  const first = weighing(40)
  const second = weighing(410, { replaces: first.id })
  const third = weighing(400, { replaces: second.id })
  expect(currentRecord([third, first, second]).weighings.map((w) => w.body.weighedG)).toEqual([400])
  const changes = correctionsOf([third, first, second]).filter((c) => c.field === 'weighedG')
  expect(changes.map((c) => [c.from, c.to])).toEqual([
    [40, 410],
    [410, 400],
  ])
})

test('an undo takes a line back without replacing it', () => {
  const slip = line('ph', { ph: 9 })
  const undo = line('withdrawn', {}, { replaces: slip.id })
  expect(currentRecord([slip, undo]).phs).toEqual([])
  expect(correctionsOf([slip, undo])).toContainEqual(
    expect.objectContaining({ field: 'ph', from: 9, to: null }),
  )
})

test('goods and water add up from several lines, the later field wins', () => {
  const lines = [
    line('goods', { dryWeightG: 1000, what: '10 skeins' }),
    line('goods', { lot: 'M-3', what: '10 skeins of 100 g' }),
    line('water', { source: 'rain' }),
  ]
  expect(currentRecord(lines).goods).toEqual({ dryWeightG: 1000, what: '10 skeins of 100 g', lot: 'M-3' })
  expect(currentRecord(lines).water).toEqual({ source: 'rain' })
})

test('what was written down later wins, in whatever order the lines come and whatever time they speak of', () => {
  const late = line('goods', { what: 'skeins' }, { atMs: T0 - 5000, notedMs: T0 + 90_000 })
  const early = line('goods', { what: 'hanks' }, { atMs: T0, notedMs: T0 + 60_000 })
  expect(currentRecord([late, early]).goods.what).toBe('skeins')
  expect(currentRecord([early, late]).goods.what).toBe('skeins')
})

test('title and dry weight of the batch itself are corrected by a line that says from what to what', () => {
  const entry = {
    id: 9,
    kind: 'correction',
    body: { from: { title: 'Rose', dryWeightG: 400 }, to: { title: 'Rose', dryWeightG: 420 } },
    who: 'Ash',
    notedMs: T0,
  }
  expect(ownCorrections(entry)).toEqual([
    { lineId: 9, kind: 'batch', field: 'dryWeightG', from: 400, to: 420, who: 'Ash', notedMs: T0 },
  ])
  expect(ownCorrections({ ...entry, kind: 'note' })).toEqual([])
  expect(ownCorrections({ ...entry, body: { to: { title: 'Rose' } } })).toMatchObject([
    { from: null, to: 'Rose' },
  ])
})

test('the newest of each fastness test stands', () => {
  const lines = [
    line('fastness', { test: 'wash', grade: '3', where: 'home' }),
    line('fastness', { test: 'light', grade: '6', where: 'lab' }),
    line('fastness', { test: 'wash', grade: '4', where: 'home' }),
  ]
  expect(currentRecord(lines).fastness.map((f) => [f.test, f.grade])).toEqual([
    ['wash', '4'],
    ['light', '6'],
  ])
})

test('a line can’t take the place of one written after it, nor of itself', () => {
  const early = weighing(100)
  const late = weighing(200)
  const crossed = [
    { ...early, replaces: late.id },
    { ...late, replaces: late.id },
  ]
  expect(standingLines(crossed)).toHaveLength(2)
})

test('a line noted later than it happened is marked, one noted within a minute is not', () => {
  expect(isBackDated(weighing(1, { atMs: T0, notedMs: T0 + 60_000 }))).toBe(false)
  expect(isBackDated(weighing(1, { atMs: T0, notedMs: T0 + 60_001 }))).toBe(true)
})

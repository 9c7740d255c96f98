import { expect, test } from 'vitest'
import { decodeCorrection } from '#core/wire/correction-schema'

const point = (rawC: number, trueC: number) => ({ rawC, trueC })

test('each kind of correction is read', () => {
  for (const input of [
    { kind: 'offset', fromMs: 0, offsetC: -0.6, who: 'M.' },
    { kind: 'two-point', fromMs: 0, low: point(0.4, 0), high: point(98.9, 99) },
  ]) {
    expect(decodeCorrection(input)).toEqual({ ok: true, correction: input })
  }
})

test.each([
  [{ kind: 'offset', fromMs: 0, offsetC: '1' }, /offsetC/],
  [{ kind: 'offset', fromMs: 0, offsetC: 1, unit: 'F' }, /"unit"/],
  [{ kind: 'two-point', fromMs: 0, low: { rawC: 1, trueC: 1 }, high: { rawC: 1, trueC: 2 } }, /1 °C apart/],
  [{ kind: 'square', fromMs: 0 }, /kind/],
  [null, /correction/],
])('%j is refused in one sentence', (input, why) => {
  const decoded = decodeCorrection(input)
  expect(decoded.ok ? 'taken' : decoded.why).toMatch(why)
})

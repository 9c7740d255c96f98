import { expect, test } from 'vitest'
import { decodeVessel } from '#core/wire/vessel-file'

const WHOLE = {
  title: 'Heron',
  litres: 12,
  diameterCm: 28,
  emptyKg: 2.2,
  material: 'stainless steel',
  surroundingsC: 20,
  altitudeM: 0,
  burner: { kind: 'coil', dialMax: 10, ratedW: 1500 },
}

test('decodeVessel takes a whole vessel as it stands', () => {
  expect(decodeVessel(WHOLE)).toEqual({ ok: true, vessel: WHOLE })
})

test('decodeVessel needs only the litres and the top of the dial', () => {
  const least = { litres: 12, burner: { dialMax: 10 } }
  expect(decodeVessel(least)).toEqual({ ok: true, vessel: least })
})

const WRONG: readonly (readonly [json: unknown, says: readonly RegExp[]])[] = [
  [{ burner: { dialMax: 10 } }, [/litres/, /missing/]],
  [{ litres: 12 }, [/burner/, /missing/]],
  [{ litres: 12, burner: {} }, [/dialMax/, /missing/]],
  [{ litres: -3, burner: { dialMax: 10 } }, [/litres/, /-3/, /0\.01/]],
  [{ litres: '12', burner: { dialMax: 10 } }, [/litres/, /"12"/, /number/]],
  [{ litres: Number.NaN, burner: { dialMax: 10 } }, [/litres/, /NaN/]],
  [{ litres: 12, burner: { dialMax: 10, kind: 'wood' } }, [/kind/, /"wood"/, /induction/]],
  [{ litres: 12, liters: 12, burner: { dialMax: 10 } }, [/liters/, /litres/]],
  [{ litres: 12, burner: { dialMax: 10, max: 3 } }, [/burner/, /"max"/]],
  [null, [/null/, /object/]],
  [[], [/\[\]/, /object/]],
]
for (const [json, says] of WRONG) {
  test(`decodeVessel says in one line what is wrong with ${JSON.stringify(json)}`, () => {
    const decoded = decodeVessel(json)
    expect(decoded.ok).toBe(false)
    const why = decoded.ok ? '' : decoded.why
    expect(why).not.toContain('\n')
    for (const part of says) expect(why).toMatch(part)
  })
}

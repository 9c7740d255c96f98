import { expect, test } from 'vitest'
import { additivesByRole, isDyeStage, roleOf } from '#core/batch/additive-roles'
import type { Stage } from '#core/plan/plan'

const soak = (...names: readonly string[]): Stage => ({
  id: names.join('-'),
  title: 'Bath',
  kind: 'soak',
  minutes: 30,
  additives: names.map((name) => ({ name, percentWof: 1 })),
})

test('a customer is told mordants and dyes by name, each once, and no helps', () => {
  const stages = [
    soak('potassium alum', 'cream of tartar'),
    soak('madder root', 'chalk'),
    soak('madder root', 'iron'),
  ]
  expect(additivesByRole({ title: 'Brick', stages })).toEqual({
    mordants: ['potassium alum', 'iron'],
    dyes: ['madder root'],
  })
})

test('a bath colours when there is something in it that is neither mordant nor help', () => {
  expect(isDyeStage(soak('alum', 'weld'))).toBe(true)
  expect(isDyeStage(soak('alum', 'soda ash', 'neutral soap'))).toBe(false)
})

test('German compounds are known by their end', () => {
  expect(['Kalialaun', 'Waschsoda', 'Weinstein', 'Krappwurzel'].map(roleOf)).toEqual([
    'mordant',
    'help',
    'help',
    'dye',
  ])
})

import { expect, test } from 'vitest'
import { stageStates } from '#core/batch/stage-states'

const CHAIN = ['scour', 'mordant', 'dye', 'cool']
const ran = (stageId: string, endedMs: number | null = 1) => ({ stageId, endedMs })

test('before the first stage has begun, all are to come', () => {
  expect(stageStates(CHAIN, [])).toEqual(['to-come', 'to-come', 'to-come', 'to-come'])
})

test('a stage that was passed over is left out, not to come', () => {
  expect(stageStates(CHAIN, [ran('scour'), ran('dye', null)])).toEqual([
    'done',
    'left-out',
    'running',
    'to-come',
  ])
})

test('a stage that ran before and runs again is running', () => {
  expect(stageStates(CHAIN, [ran('scour'), ran('mordant'), ran('scour', null)])).toEqual([
    'running',
    'done',
    'to-come',
    'to-come',
  ])
})

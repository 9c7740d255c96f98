import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import * as fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { HandOver, type SendResult } from '../../../bridge/link/hand-over.ts'
import { Outbox } from '../../../bridge/link/outbox.ts'
import type { OutboxRow } from '../../../bridge/link/outbox-rows.ts'
import { seededRandom } from '#core/measure/seeded-random'
import { settle } from '../../kit/fake-world.ts'
import { HandClock } from '../../kit/hand-clock.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-hand-over-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

const TAKEN: SendResult = { kind: 'taken', refused: new Map() }
const AWAY: SendResult = { kind: 'later', sentence: 'no server', afterMs: null }

function setUp(answer: (rows: readonly OutboxRow[]) => SendResult, before = 0) {
  const clock = new HandClock()
  const troubles: (string | null)[] = []
  const sent: number[][] = []
  let handOver: HandOver | null = null
  const outbox = new Outbox({
    file: join(folder, `${Math.random()}.sqlite`),
    clock,
    boot: 'b1',
    onReady: () => handOver?.wake(),
    onTrouble: () => {},
  })
  const put = (rawC: number) => outbox.put({ kind: 'temp', probe: 'wren', atMs: clock.nowMs(), rawC })
  for (let i = 0; i < before; i++) put(i)
  outbox.commit()
  clock.advance(before === 0 ? 10 : 60_000)
  handOver = new HandOver({
    outbox,
    clock,
    random: () => 0.5,
    send: (rows) => {
      sent.push(rows.map((r) => r.serial.seq))
      return Promise.resolve(answer(rows))
    },
    onTrouble: (sentence) => troubles.push(sentence),
  })
  const taken = (): number[] => sent.flat()
  return { clock, outbox, handOver, put, sent, taken, troubles }
}

test('a row leaves the outbox only after the server has it', async () => {
  let answer: SendResult = AWAY
  const { clock, outbox, put, sent, troubles } = setUp(() => answer)
  put(70)
  await settle()
  expect(outbox.counts().waiting).toBe(1)
  expect(troubles).toEqual(['no server'])
  answer = TAKEN
  clock.advance(5000)
  await settle()
  expect(outbox.counts().waiting).toBe(0)
  expect(sent).toEqual([[0], [0]])
  expect(troubles.at(-1)).toBeNull()
  outbox.close()
})

test('the newest go first and the backlog behind them, each in order', async () => {
  const { clock, outbox, handOver, put, sent } = setUp(() => TAKEN, 2500)
  put(99)
  handOver.wake()
  await settle()
  clock.advance(1)
  await settle()
  const order = sent.map((batch) => batch[0])
  expect(order.indexOf(2500)).toBeLessThan(order.indexOf(1000))
  const backlog = sent.flat().filter((seq) => seq < 2500)
  expect(backlog).toEqual(Array.from({ length: 2500 }, (_, i) => i))
  outbox.close()
})

test('after an outage what piled up goes behind what is new', async () => {
  let answer: SendResult = AWAY
  const { clock, outbox, put, sent } = setUp(() => answer)
  for (let s = 0; s < 600; s++) {
    put(s)
    clock.advance(1000)
    await settle()
  }
  sent.length = 0
  answer = TAKEN
  clock.advance(5000)
  await settle()
  put(600)
  await settle()
  clock.advance(1000)
  await settle()
  expect(outbox.counts().waiting).toBe(0)
  const seqs = sent.flat()
  expect(new Set(seqs).size).toBe(601)
  // The readings of the last five seconds before the return were live and went in the first batches.
  expect(sent[0]![0]).toBeGreaterThanOrEqual(590)
  outbox.close()
})

test('waits grow to five seconds at most, with jitter, and a server may ask for longer', async () => {
  let answer: SendResult = AWAY
  const { clock, outbox, put, sent } = setUp(() => answer)
  put(70)
  await settle()
  const tries = async (ms: number) => {
    const before = sent.length
    for (let t = 0; t < ms; t += 50) {
      clock.advance(50)
      await settle()
    }
    return sent.length - before
  }
  expect(await tries(2000)).toBeGreaterThanOrEqual(3)
  await tries(30_000)
  expect(await tries(60_000)).toBeGreaterThanOrEqual(12)
  answer = { kind: 'later', sentence: 'busy', afterMs: 30_000 }
  await tries(5000)
  expect(await tries(25_000)).toBe(0)
  outbox.close()
})

test('one row that can not be read is put aside with the reason and blocks no other', async () => {
  const { clock, outbox, handOver, taken } = setUp(
    (rows) => (rows.some((r) => r.serial.seq === 37) ? { kind: 'unreadable', why: 'status 400' } : TAKEN),
    100,
  )
  handOver.wake()
  for (let i = 0; i < 30; i++) {
    await settle()
    clock.advance(1000)
  }
  expect(outbox.counts()).toMatchObject({ waiting: 0, refused: 1 })
  expect(new Set(taken()).size).toBe(100)
  outbox.close()
})

test('whatever the server does, every row arrives at last and none is settled before', async () => {
  await fc.assert(
    fc.asyncProperty(fc.integer(), async (seed) => {
      const random = seededRandom(seed)
      const stored = new Set<number>()
      let isWell = false
      const { clock, outbox, put } = setUp((rows) => {
        const dice = isWell ? 0 : random()
        if (dice < 0.4) for (const r of rows) stored.add(r.serial.seq)
        // The answer may be lost after the commit: the batch comes again.
        if (dice < 0.25) return TAKEN
        return dice < 0.8 ? AWAY : { kind: 'later', sentence: 'busy', afterMs: 700 }
      }, 30)
      for (let i = 0; i < 60; i++) {
        if (random() < 0.7) put(i)
        clock.advance(Math.floor(random() * 3000))
        await settle()
        expect(outbox.counts().waiting + stored.size).toBeGreaterThanOrEqual(outbox.topId)
      }
      isWell = true
      for (let i = 0; i < 10; i++) {
        clock.advance(6000)
        await settle()
      }
      expect(outbox.counts().waiting).toBe(0)
      expect(stored.size).toBe(outbox.topId)
      outbox.close()
    }),
    { numRuns: 15 },
  )
})

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Sample } from '#core/measure/reading'
import { Outbox } from '../../../bridge/link/outbox.ts'
import { assertDurable, openOutboxFile } from '../../../bridge/link/outbox-file.ts'
import { HandClock } from '../../kit/hand-clock.ts'

let folder = ''
let file = ''
let clock: HandClock
let said: string[]

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-outbox-'))
  file = join(folder, 'outbox.sqlite')
  clock = new HandClock()
  said = []
})

afterEach(() => rmSync(folder, { recursive: true }))

const open = (boot = 'b1', onReady = () => {}) =>
  new Outbox({ file, clock, boot, onReady, onTrouble: (sentence) => said.push(sentence) })

const sample = (probe: string, rawC: number): Sample => ({ kind: 'temp', probe, atMs: clock.nowMs(), rawC })

const ALL = Number.MAX_SAFE_INTEGER

test('what was put in survives, with its identity, in order', () => {
  const first = open()
  first.put(sample('wren', 70))
  first.put(sample('heron', 64))
  first.put({ kind: 'fault', probe: 'wren', atMs: clock.nowMs(), fault: 'not-connected', found: '-127' })
  first.close()
  const second = open('b2')
  second.put(sample('wren', 71))
  second.commit()
  expect(second.rows(0, ALL, 10).map((r) => [r.sample.probe, r.serial.boot, r.serial.seq])).toEqual([
    ['wren', 'b1', 0],
    ['heron', 'b1', 0],
    ['wren', 'b1', 1],
    ['wren', 'b2', 0],
  ])
  expect(second.rows(0, ALL, 10)[2]!.sample).toMatchObject({ kind: 'fault', found: '-127' })
  second.close()
})

test('every open is durable, the second one too', () => {
  openOutboxFile(file, () => {}).close()
  const again = openOutboxFile(file, () => {})
  expect(again.pragma('synchronous', { simple: true })).toBe(2)
  assertDurable(again)
  again.pragma('synchronous = NORMAL')
  expect(() => assertDurable(again)).toThrow(/expected synchronous 2/)
  again.close()
})

test('samples of one turn are one commit, made without waiting', async () => {
  let commits = 0
  const outbox = open('b1', () => commits++)
  outbox.put(sample('wren', 70))
  outbox.put(sample('heron', 64))
  expect(outbox.rows(0, ALL, 10)).toEqual([])
  await Promise.resolve()
  expect(outbox.rows(0, ALL, 10)).toHaveLength(2)
  expect(commits).toBe(1)
  outbox.close()
})

test('what the server has leaves, what it refused is kept with the reason', () => {
  const outbox = open()
  for (const rawC of [70, 71, 72]) outbox.put(sample('wren', rawC))
  outbox.commit()
  const rows = outbox.rows(0, ALL, 10)
  outbox.settle(rows.slice(0, 2), new Map([[rows[1]!.id, 'a unit that is not known']]))
  expect(outbox.rows(0, ALL, 10).map((r) => r.id)).toEqual([rows[2]!.id])
  expect(outbox.counts()).toMatchObject({ waiting: 1, refused: 1, oldestWaitingMs: clock.nowMs() })
  clock.advance(1000)
  outbox.close()
  const db = new Database(file, { readonly: true })
  expect(db.prepare('SELECT seq, why FROM refused').all()).toEqual([
    { seq: 1, why: 'a unit that is not known' },
  ])
  expect(db.prepare('SELECT count(*) AS n FROM waiting').get()).toEqual({ n: 1 })
  db.close()
})

test('rows behind many that have just left are found', () => {
  const outbox = open()
  for (let i = 0; i < 50; i++) outbox.put(sample('wren', i))
  outbox.commit()
  outbox.settle(outbox.rows(0, ALL, 40))
  expect(outbox.rows(0, ALL, 10).map((r) => r.serial.seq)).toEqual([40, 41, 42, 43, 44, 45, 46, 47, 48, 49])
  outbox.close()
})

test('a broken file is set aside and said loudly, and a new one begun', () => {
  writeFileSync(file, 'this is no database, it only stands where one should be'.repeat(100))
  const outbox = open()
  outbox.put(sample('wren', 70))
  outbox.commit()
  expect(outbox.rows(0, ALL, 10)).toHaveLength(1)
  expect(said[0]).toMatch(/was broken; it was moved to .*broken-/)
  outbox.close()
})

test('a full disk: readings go on from memory, it is said once, and they are written when there is room', () => {
  openOutboxFile(file, () => {}).close()
  const outbox = open()
  const full = new Database(file)
  // A lock held by another stands for a disk that takes no write; the real full disk is tried in test/real.
  full.exec('BEGIN IMMEDIATE')
  outbox.put(sample('wren', 70))
  outbox.commit()
  expect(said).toHaveLength(1)
  expect(said[0]).toMatch(/can't be written.*free some space/)
  expect(outbox.counts()).toMatchObject({ waiting: 1, trouble: said[0] })
  const [row] = outbox.rows(0, ALL, 10)
  outbox.put(sample('wren', 71))
  outbox.settle([row!])
  expect(outbox.rows(0, ALL, 10).map((r) => r.serial.seq)).toEqual([1])
  full.exec('ROLLBACK')
  full.close()
  clock.advance(1000)
  expect(outbox.counts()).toMatchObject({ waiting: 1, trouble: null })
  outbox.close()
  const again = open('b2')
  expect(again.rows(0, ALL, 10).map((r) => r.serial.seq)).toEqual([1])
  again.close()
}, 30_000)

test('runs on a clock that was never set are laid before the run that met the server, in order', () => {
  const rowsAt = (boot: string, times: readonly number[]) => {
    const outbox = open(boot)
    for (const atMs of times) outbox.put({ kind: 'temp', probe: 'wren', atMs, rawC: 70 })
    outbox.close()
  }
  rowsAt('set', [clock.nowMs() - 9_000_000])
  // A board without a battery begins each run at the same moment of 1970.
  rowsAt('first', [60_000, 120_000])
  rowsAt('second', [60_000, 90_000])
  const now = open('now')
  now.notes.placeOldRuns(clock.nowMs())
  const placed = now
    .rows(0, ALL, 10)
    .map((r) => r.sample.atMs + now.notes.offsetOf(r.serial.boot) - clock.nowMs())
  expect(placed).toEqual([-9_000_000, -90_002, -30_002, -30_001, -1])
  now.close()
})

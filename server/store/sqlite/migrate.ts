import { existsSync, rmSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { StoreRefusal } from '../store-refusal.ts'
import { FIRST } from './migrations/first.ts'
import { HEAT } from './migrations/heat.ts'
import { LOTS } from './migrations/lots.ts'
import { NIGHT } from './migrations/night.ts'
import { PHOTOS } from './migrations/photos.ts'
import { PROBE_CHANGES } from './migrations/probe-changes.ts'
import { RECORD } from './migrations/record.ts'
import { RUN_LITRES } from './migrations/run-litres.ts'
import { TOLD } from './migrations/told.ts'

/** Migration n brings a file from version n to n + 1. Only ever add to the end. */
const MIGRATIONS: readonly string[] = [
  FIRST,
  RECORD,
  PHOTOS,
  HEAT,
  TOLD,
  NIGHT,
  LOTS,
  PROBE_CHANGES,
  RUN_LITRES,
]

/**
 * Brings the file to the newest version, each step in a transaction of its own. Before the first step a copy
 * of an older file is laid beside it (`….before-v2`), so that going back needs no luck. A file of a newer
 * program is refused: guessing at it could spoil the only record there is.
 */
export async function migrate(db: Database.Database, steps: readonly string[] = MIGRATIONS): Promise<void> {
  const version = schemaVersion(db)
  if (version > steps.length) throw new StoreRefusal(newerSentence(db.name, version, steps.length))
  if (version === steps.length) return
  if (version > 0) await copyBeside(db, steps.length)
  for (let n = version; n < steps.length; n += 1) {
    db.transaction(() => {
      db.exec(steps[n]!)
      db.pragma(`user_version = ${n + 1}`)
    }).immediate()
  }
}

export const schemaVersion = (db: Database.Database): number =>
  Number(db.pragma('user_version', { simple: true }))

const newerSentence = (file: string, found: number, known: number): string =>
  `${file} was written by a newer Holdfast (its version is ${found}, this program knows up to ${known}); ` +
  'use that newer program, or restore a backup made with this one'

async function copyBeside(db: Database.Database, version: number): Promise<void> {
  const copy = `${db.name}.before-v${version}`
  if (existsSync(copy)) rmSync(copy)
  await db.backup(copy)
}

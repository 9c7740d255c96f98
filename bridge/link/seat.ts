import Database from 'better-sqlite3'

/** Gives the seat up. */
export type Leave = () => void

/**
 * The one seat of a bridge in its folder: two of them would take readings off each other's port and outbox. It is a
 * lock of the system on `file`, held through the database library because Node itself has none; it is free as soon
 * as its holder has ended, however that died. `null`: it is taken.
 */
export function takeSeat(file: string): Leave | null {
  const db = new Database(file, { timeout: 0 })
  try {
    db.exec('BEGIN EXCLUSIVE')
    return () => db.close()
  } catch (error) {
    db.close()
    if ((error as { code?: string }).code === 'SQLITE_BUSY') return null
    throw error
  }
}

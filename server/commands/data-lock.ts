import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { UsageError } from './command.ts'
import { makeFolder } from '../store/make-folder.ts'

/** Which program has the data folder, and how to ask it. */
export interface DataHolder {
  readonly pid: number
  readonly url?: string
  readonly key?: string
}

export interface DataLock {
  /** Lets other commands find the server. */
  say(url: string, key: string): void
  release(): void
}

const pathIn = (data: string): string => join(data, 'server.json')

/** What the last server on this folder noted of itself, whether it still runs or died; `null` after an orderly end. */
export function noteOf(data: string): DataHolder | null {
  try {
    return JSON.parse(readFileSync(pathIn(data), 'utf8')) as DataHolder
  } catch {
    return null
  }
}

/** The program that has this folder now, or `null`. */
export function holderOf(data: string): DataHolder | null {
  const holder = noteOf(data)
  if (holder === null) return null
  try {
    process.kill(holder.pid, 0)
    return holder
  } catch (error) {
    // Of another user, but there.
    return (error as NodeJS.ErrnoException).code === 'EPERM' ? { pid: 0 } : null
  }
}

/** Two servers on one folder would both think that the record is theirs: the second one does not start. */
export function lockData(data: string): DataLock {
  const holder = holderOf(data)
  if (holder !== null && holder.pid !== process.pid)
    throw new UsageError(
      `the data folder ${data} is in use by a server that runs${holder.url === undefined ? '' : ` at ${holder.url}`}; ` +
        'end it, or choose another folder with --data',
    )
  const write = (more: object) =>
    writeFileSync(pathIn(data), `${JSON.stringify({ pid: process.pid, ...more })}\n`, { mode: 0o600 })
  try {
    makeFolder(data)
    write({})
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error)
    throw new UsageError(
      `the data folder ${data} can't be written to (${code}); it must be a folder that this user may write`,
    )
  }
  return { say: (url, key) => write({ url, key }), release: () => rmSync(pathIn(data), { force: true }) }
}

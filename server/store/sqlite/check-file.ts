import { execFile } from 'node:child_process'
import { createRequire } from 'node:module'

/**
 * Runs as a process of its own, after everybody else: a large file takes minutes, the watch must not stand still for
 * them, and a thread that is deep in the library can't be ended.
 */
const LOOK = `
require('node:os').setPriority(10)
const [library, file] = process.argv.slice(1)
const db = new (require(library))(file, { readonly: true })
console.log(JSON.stringify(db.pragma('quick_check').map((row) => row.quick_check)))
`

/** The library lists a hundred faults at most. */
const MOST_BYTES = 1_000_000

/**
 * Looks through the whole file on a connection of its own that can only read. The answer is what was found wrong;
 * empty when it is sound. `signal` breaks it off: it rejects then, as it does when the look itself fails.
 */
export function checkFile(file: string, signal?: AbortSignal): Promise<readonly string[]> {
  const library = createRequire(import.meta.url).resolve('better-sqlite3')
  const options = { maxBuffer: MOST_BYTES, killSignal: 'SIGKILL', ...(signal && { signal }) } as const
  return new Promise((resolve, reject) => {
    execFile(process.execPath, ['-e', LOOK, library, file], options, (error, found) => {
      if (error) reject(error)
      else resolve((JSON.parse(found) as string[]).filter((line) => line !== 'ok'))
    })
  })
}

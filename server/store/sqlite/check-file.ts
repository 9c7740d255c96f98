import { createRequire } from 'node:module'
import { Worker } from 'node:worker_threads'

/** Runs beside the program: a large file takes minutes, and the watch must not stand still for them. */
const LOOK = `
const { parentPort, workerData } = require('node:worker_threads')
const Database = require(workerData.library)
const db = new Database(workerData.file, { readonly: true })
parentPort.postMessage(db.pragma('quick_check').map((row) => row.quick_check))
db.close()
`

/**
 * Looks through the whole file on a connection of its own that can only read. The answer is what was found wrong;
 * empty when it is sound.
 */
export function checkFile(file: string): Promise<readonly string[]> {
  const library = createRequire(import.meta.url).resolve('better-sqlite3')
  const worker = new Worker(LOOK, { eval: true, workerData: { library, file } })
  return new Promise((resolve, reject) => {
    worker.once('message', (lines: string[]) => resolve(lines.filter((line) => line !== 'ok')))
    worker.once('error', reject)
    worker.once('exit', () => resolve([]))
  })
}

import { existsSync, mkdirSync } from 'node:fs'
import { dirname, resolve } from 'node:path'

/**
 * Makes a folder with those above it. Node's own way of doing so never comes back where the system says of a folder
 * that is there that it isn't, as below /proc.
 */
export function makeFolder(path: string): void {
  const folder = resolve(path)
  if (existsSync(folder)) return
  if (dirname(folder) !== folder) makeFolder(dirname(folder))
  try {
    mkdirSync(folder)
  } catch (error) {
    // Another program was a moment quicker.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
}

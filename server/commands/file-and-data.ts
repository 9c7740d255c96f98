import { resolve } from 'node:path'
import { type Flags, UsageError } from './command.ts'
import { dataFolder } from './settings-file.ts'

/** The one file that a command takes, and the data folder that it works on, as whole paths. */
export function fileAndData(
  flags: Flags,
  positionals: readonly string[],
  /** What is said when there is no file, or more than one. */
  refusal: string,
): { readonly file: string; readonly data: string } {
  const [name, ...more] = positionals
  if (name === undefined || more.length > 0) throw new UsageError(refusal)
  return { file: resolve(name), data: resolve(dataFolder(flags, process.env)) }
}

import type { ParseArgsConfig } from 'node:util'

/** What a command's flags came to, by name. */
export type Flags = Readonly<Record<string, string | boolean | readonly (string | boolean)[] | undefined>>

/** One command of the command line. */
export interface Command {
  readonly name: string
  /** One line for the list of commands. */
  readonly summary: string
  /** The whole text of `--help`. */
  readonly help: string
  readonly options: NonNullable<ParseArgsConfig['options']>
  /** Names of what may follow without a flag, in order. */
  readonly positionals?: readonly string[]
  /** Does the work; the answer is the exit code. Throws `UsageError` for what the person can mend. */
  run(flags: Flags, positionals: readonly string[]): Promise<number>
}

/** Something the person wrote is wrong: one sentence, exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError'
}

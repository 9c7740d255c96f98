import { parseArgs } from 'node:util'
import { backup } from './backup.ts'
import { bridge } from './bridge.ts'
import { type Command, UsageError } from './command.ts'
import { probes } from './probes.ts'
import { exportCommand } from './export.ts'
import { replay } from './replay.ts'
import { restore } from './restore.ts'
import { demo } from './demo.ts'
import { serve } from './serve.ts'
import { tune } from './tune.ts'

const COMMANDS: readonly Command[] = [
  serve,
  demo,
  bridge,
  probes,
  replay,
  tune,
  exportCommand,
  backup,
  restore,
]

/** Runs one command and sets the exit code: 0 done, 1 the program failed, 2 the person can mend it. */
export async function main(args: readonly string[]): Promise<void> {
  try {
    process.exitCode = await runCommand(args)
  } catch (error) {
    process.exitCode = error instanceof UsageError ? 2 : 1
    console.error(sentence(error))
  }
}

async function runCommand(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args
  if (name === undefined || name === '--help' || name === 'help') {
    console.log(overview())
    return 0
  }
  const command = COMMANDS.find((c) => c.name === name)
  if (command === undefined) throw new UsageError(`there is no command "${name}"; ${allowedCommands()}`)
  const { values, positionals } = parse(command, rest)
  if (values['help'] === true) {
    console.log(command.help)
    return 0
  }
  return command.run(values, positionals)
}

function parse(command: Command, args: string[]) {
  try {
    return parseArgs({
      args: joinNegatives(command, args),
      options: { ...command.options, help: { type: 'boolean' } },
      allowPositionals: command.positionals !== undefined,
    })
  } catch (error) {
    const flags = Object.keys(command.options).map((flag) => `--${flag}`)
    throw new UsageError(`${messageOf(error)}; "${command.name}" takes ${flags.join(', ')} and --help`)
  }
}

/** `--target -3` is a value and no flag: the parser takes it as `--target=-3` alone. */
function joinNegatives({ options }: Command, args: readonly string[]): string[] {
  const joined: string[] = []
  for (const arg of args) {
    const flag = joined.at(-1) ?? ''
    const takesValue = flag.startsWith('--') && options[flag.slice(2)]?.type === 'string'
    if (takesValue && /^-[\d.]/.test(arg)) joined[joined.length - 1] = `${flag}=${arg}`
    else joined.push(arg)
  }
  return joined
}

const allowedCommands = () => `allowed are ${COMMANDS.map((c) => c.name).join(', ')}`

function overview(): string {
  const width = Math.max(...COMMANDS.map((c) => c.name.length))
  const lines = COMMANDS.map((c) => `  ${c.name.padEnd(width)}  ${c.summary}`)
  return ['Usage: npx --no holdfast <command> [flags]', '', ...lines, '', 'Each has --help.'].join('\n')
}

const messageOf = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0]!.replace(/\.$/, '')

function sentence(error: unknown): string {
  if (process.env['HOLDFAST_LOG'] === 'debug' && error instanceof Error && error.stack) return error.stack
  return `holdfast: ${messageOf(error)}`
}

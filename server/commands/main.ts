import { parseArgs } from 'node:util'
import { nearestName } from '#core/wire/nearest-name'
import { type Command, UsageError } from './command.ts'

/** Each is loaded when it is asked for: a bridge needs no web server, a server no serial port, and both start sooner. */
const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  serve: async () => (await import('./serve.ts')).serve,
  demo: async () => (await import('./demo.ts')).demo,
  bridge: async () => (await import('./bridge.ts')).bridge,
  probes: async () => (await import('./probes.ts')).probes,
  replay: async () => (await import('./replay.ts')).replay,
  tune: async () => (await import('./tune.ts')).tune,
  export: async () => (await import('./export.ts')).exportCommand,
  backup: async () => (await import('./backup.ts')).backup,
  restore: async () => (await import('./restore.ts')).restore,
}

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
    console.log(await overview())
    return 0
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
  if (load === undefined) throw new UsageError(`there is no command "${name}"; ${allowedCommands()}`)
  const command = await load()
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
    throw new UsageError(`${slipOf(error, flags)}; "${command.name}" takes ${flags.join(', ')} and --help`)
  }
}

/** What the parser found, in our words. */
function slipOf(error: unknown, flags: readonly string[]): string {
  const message = messageOf(error)
  const found = /'(.*?)(?: <value>)?'/.exec(message)?.[1] ?? ''
  switch ((error as { readonly code?: string }).code) {
    case 'ERR_PARSE_ARGS_UNKNOWN_OPTION': {
      const nearest = nearestName(found, [...flags, '--help'])
      return `there is no flag ${found}; the nearest one is ${nearest ?? '--help'}`
    }
    case 'ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL':
      return `"${found}" stands where no word is taken`
    case 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE':
      return /missing|ambiguous/.test(message) ? `${found} needs a value` : `${found} takes no value`
    default:
      return message
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

const allowedCommands = () => `allowed are ${Object.keys(COMMANDS).join(', ')}`

async function overview(): Promise<string> {
  const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()))
  const width = Math.max(...commands.map((c) => c.name.length))
  const lines = commands.map((c) => `  ${c.name.padEnd(width)}  ${c.summary}`)
  return ['Usage: npx --no holdfast <command> [flags]', '', ...lines, '', 'Each has --help.'].join('\n')
}

const messageOf = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0]!.replace(/\.$/, '')

function sentence(error: unknown): string {
  if (process.env['HOLDFAST_LOG'] === 'debug' && error instanceof Error && error.stack) return error.stack
  return `holdfast: ${messageOf(error)}`
}

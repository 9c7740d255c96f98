import { accessSync, constants, mkdirSync } from 'node:fs'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { Bridge, type BridgeOptions } from '../../bridge/main.ts'
import { type Command, type Flags, UsageError } from './command.ts'

const HELP = `Usage: npx --no holdfast bridge --server URL [flags]

Reads the probes that hang on this computer and hands every reading to the server. It is started by itself beside
the server; start it by hand on another computer near the pots.

  --server URL   the server, such as http://192.168.1.20:4715     (HOLDFAST_SERVER, http://127.0.0.1:4715)
  --name NAME    this bridge's name; probes name it with "bridge" (HOLDFAST_BRIDGE, the computer's name)
  --key KEY      the bridge's key, needed from another computer   (HOLDFAST_BRIDGE_KEY)
  --data DIR     folder of its outbox                             (HOLDFAST_DATA, ./data)
  --child        end when the program that started it ends

Readings wait in <data>/bridge/outbox.sqlite until the server has answered that they are on its disk.`

export const bridge: Command = {
  name: 'bridge',
  summary: 'reads probes on this computer and hands their readings to a server',
  help: HELP,
  options: {
    server: { type: 'string' },
    name: { type: 'string' },
    key: { type: 'string' },
    data: { type: 'string' },
    child: { type: 'boolean' },
  },
  run,
}

async function run(flags: Flags): Promise<number> {
  const isChild = flags['child'] === true
  const data = join(text(flags, 'data', 'HOLDFAST_DATA') ?? './data', 'bridge')
  makeWritable(data)
  const running = openBridge({
    server: serverUrl(text(flags, 'server', 'HOLDFAST_SERVER') ?? 'http://127.0.0.1:4715'),
    data,
    name: bridgeName(text(flags, 'name', 'HOLDFAST_BRIDGE')),
    key: text(flags, 'key', 'HOLDFAST_BRIDGE_KEY') ?? null,
    isOwn: isChild,
    say: (sentence) => console.error(`bridge: ${sentence}`),
  })
  if (!isChild) console.log('bridge running')
  await untilAsked(isChild)
  await running.stop()
  return 0
}

/** An outbox of a newer program, or one that can't be opened, is for a person to mend. */
function openBridge(options: BridgeOptions): Bridge {
  try {
    return new Bridge(options)
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error))
  }
}

const text = (flags: Flags, flag: string, variable: string): string | undefined => {
  const value = flags[flag] ?? process.env[variable]
  return typeof value === 'string' && value !== '' ? value : undefined
}

function serverUrl(given: string): URL {
  const url = URL.canParse(given) ? new URL(given) : null
  if (url === null || !['http:', 'https:'].includes(url.protocol)) {
    throw new UsageError(`--server is "${given}"; allowed is an address like http://127.0.0.1:4715`)
  }
  return url
}

function bridgeName(given: string | undefined): string {
  const name =
    given ??
    (hostname()
      .replace(/[^A-Za-z0-9_.-]+/g, '-')
      .replace(/^[^A-Za-z0-9]+/, '')
      .slice(0, 64) ||
      'bridge')
  if (!/^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/.test(name)) {
    throw new UsageError(
      `--name is "${name}"; allowed are letters, digits and - . _, at most 64, the first no sign`,
    )
  }
  return name
}

function makeWritable(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true })
    accessSync(folder, constants.W_OK)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error)
    throw new UsageError(
      `--data: the folder ${folder} can't be written to (${code}); name one that this user may write`,
    )
  }
}

/** Until a signal, or, for a child, until the program that started it is gone. */
function untilAsked(isChild: boolean): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve())
    process.once('SIGTERM', () => resolve())
    if (!isChild) return
    if (process.channel) process.once('disconnect', () => resolve())
    else
      process.stdin
        .once('end', () => resolve())
        .once('close', () => resolve())
        .resume()
  })
}

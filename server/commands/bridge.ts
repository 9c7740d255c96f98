import { accessSync, constants } from 'node:fs'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { Bridge, type BridgeOptions } from '../../bridge/main.ts'
import { type Leave, takeSeat } from '../../bridge/link/seat.ts'
import { untilNotNeeded } from './bridge-alone.ts'
import { BridgeVoice } from './bridge-voice.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { leave } from './leave.ts'
import { untilSignal } from './until-signal.ts'
import { makeFolder } from '../store/make-folder.ts'

/** How often it is looked whether the seat is free, ms. */
const SEAT_LOOK_MS = 100

const HELP = `Usage: npx --no holdfast bridge --server URL [flags]

Reads the probes that hang on this computer and hands every reading to the server. It is started by itself beside
the server; start it by hand on another computer near the pots.

  --server URL   the server, such as http://192.168.1.20:4715     (HOLDFAST_SERVER, http://127.0.0.1:4715)
  --name NAME    this bridge's name; probes name it with "bridge" (HOLDFAST_BRIDGE, the computer's name)
  --key KEY      the bridge's key, needed from another computer   (HOLDFAST_BRIDGE_KEY)
  --data DIR     folder of its outbox                             (HOLDFAST_DATA, ./data)
  --child PID    started beside itself by the server of this process number: ends when that says so; should it
                 die, goes on alone until another is up on the same data folder, for 12 h at most

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
    child: { type: 'string' },
  },
  run,
}

async function run(flags: Flags): Promise<number> {
  const serverPid = text(flags, 'child')
  const isChild = serverPid !== undefined
  const data = text(flags, 'data', 'HOLDFAST_DATA') ?? './data'
  const folder = join(data, 'bridge')
  const server = serverUrl(text(flags, 'server', 'HOLDFAST_SERVER') ?? 'http://127.0.0.1:4715')
  const name = bridgeName(text(flags, 'name', 'HOLDFAST_BRIDGE'))
  makeWritable(folder)
  const voice = new BridgeVoice()
  const giveUpSeat = await seatIn(folder, isChild, voice)
  const running = openBridge({
    server,
    data: folder,
    name,
    key: text(flags, 'key', 'HOLDFAST_BRIDGE_KEY') ?? null,
    isOwn: isChild,
    say: (sentence) => voice.say(sentence),
    bell: () => voice.bell(),
  })
  if (!isChild) console.log('bridge running')
  await (isChild ? untilServerEnds(data, Number(serverPid), voice) : untilSignal())
  await running.stop()
  giveUpSeat()
  // An open channel would keep it running.
  if (process.connected) process.disconnect()
  leave()
  return 0
}

/** A child waits for the one that an earlier server left behind; a person is told that there is one. */
async function seatIn(folder: string, isChild: boolean, voice: BridgeVoice): Promise<Leave> {
  const file = join(folder, 'seat')
  for (let isFirst = true; ; isFirst = false) {
    const giveUp = takeSeat(file)
    if (giveUp !== null) return giveUp
    if (!isChild)
      throw new UsageError(`a bridge works in ${folder} already; end it, or name another folder with --data`)
    if (isFirst) voice.say('the bridge of an earlier server still works here; waiting until it has made room')
    await new Promise((resolve) => setTimeout(resolve, SEAT_LOOK_MS))
  }
}

/** An outbox of a newer program, or one that can't be opened, is for a person to mend. */
function openBridge(options: BridgeOptions): Bridge {
  try {
    return new Bridge(options)
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error))
  }
}

const text = (flags: Flags, flag: string, variable?: string): string | undefined => {
  const value = flags[flag] ?? (variable === undefined ? undefined : process.env[variable])
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
    makeFolder(folder)
    accessSync(folder, constants.W_OK)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error)
    throw new UsageError(
      `--data: the folder ${folder} can't be written to (${code}); name one that this user may write`,
    )
  }
}

/** Until a signal, or until the server has died and a bridge alone is of no more use. */
async function untilServerEnds(data: string, serverPid: number, voice: BridgeVoice): Promise<void> {
  const left = process.connected
    ? new Promise<void>((resolve) => process.once('disconnect', resolve))
    : Promise.resolve()
  const alone = async () => {
    await left
    voice.alone()
    voice.say(
      `the server has died; this bridge goes on alone until one is started again (to end it: kill ${process.pid})`,
    )
    await untilNotNeeded(data, serverPid)
  }
  await Promise.race([untilSignal(), alone()])
}

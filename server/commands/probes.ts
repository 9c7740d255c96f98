import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeAnswer } from '#core/wire/api-probes'
import { ServerWay } from '../../bridge/link/server-way.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { holderOf } from './data-lock.ts'
import { candidatesText, probesText, type Unit } from './probes-text.ts'
import { dataFolder } from './settings-file.ts'

const HELP = `Usage: npx --no holdfast probes [flags]

Lists every probe: its last reading and age, how often it reports, its rate and noise, its state, battery, lag,
correction and where it hangs. Asks the server that runs on the data folder.

  --find         lists ports and topics with live values until Ctrl-C: warm a probe in the hand and see which it is
  --json         one JSON array on standard output instead of a table (with --find: one look, after five seconds)
  --unit C|F     unit of the table                            (HOLDFAST_UNIT, C)
  --server URL   a server elsewhere                           (HOLDFAST_SERVER)
  --key KEY      the key to it, where it asks for one         (HOLDFAST_BRIDGE_KEY)
  --data DIR     data folder of the server on this computer   (HOLDFAST_DATA, ./data)

Looking for a probe opens every serial port that no probe uses; some boards start anew when that is done.`

export const probes: Command = {
  name: 'probes',
  summary: 'lists the probes with their last readings, or finds one',
  help: HELP,
  options: {
    find: { type: 'boolean' },
    json: { type: 'boolean' },
    unit: { type: 'string' },
    server: { type: 'string' },
    key: { type: 'string' },
    data: { type: 'string' },
  },
  run,
}

type Found = readonly (Candidate & { readonly bridge: string })[]

async function run(flags: Flags): Promise<number> {
  const unit = unitOf(flags)
  const way = wayOf(flags)
  try {
    if (flags['find'] === true) await find(way, flags['json'] === true)
    else await list(way, unit, flags['json'] === true)
    return 0
  } finally {
    way.close()
  }
}

function unitOf(flags: Flags): Unit {
  const unit = flags['unit'] ?? process.env['HOLDFAST_UNIT'] ?? 'C'
  if (unit !== 'C' && unit !== 'F') throw new UsageError(`--unit is "${String(unit)}"; allowed are C and F`)
  return unit
}

/** The server that was named, or the one on the data folder. */
function wayOf(flags: Flags): ServerWay {
  const holder = holderOf(dataFolder(flags, process.env))
  const given = flags['server'] ?? process.env['HOLDFAST_SERVER'] ?? holder?.url ?? 'http://127.0.0.1:4715'
  const address = String(given)
  if (!URL.canParse(address)) {
    throw new UsageError(`--server is "${address}"; allowed is an address like http://127.0.0.1:4715`)
  }
  const key = flags['key'] ?? process.env['HOLDFAST_BRIDGE_KEY']
  const ownKey = address === holder?.url ? (holder.key ?? null) : null
  return new ServerWay(new URL(address), typeof key === 'string' ? key : ownKey)
}

async function list(way: ServerWay, unit: Unit, isJson: boolean): Promise<void> {
  const all = (await get(way, '/api/probes')) as readonly ProbeAnswer[]
  console.log(isJson ? JSON.stringify(all) : probesText(all, unit))
}

/** How long one look takes, ms: two rounds of the bridge. */
const LOOK_MS = 5000
/** How often the list on a terminal is drawn anew, ms. */
const REDRAW_MS = 1000

async function find(way: ServerWay, isJson: boolean): Promise<void> {
  await ask(way, '/api/find-probe', { find: true })
  try {
    if (isJson) {
      await pause(LOOK_MS)
      console.log(JSON.stringify(await candidates(way)))
    } else await watchCandidates(way)
  } finally {
    await ask(way, '/api/find-probe', { find: false })
  }
}

async function watchCandidates(way: ServerWay): Promise<void> {
  const over = new AbortController()
  for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => over.abort())
  console.log('Warm a probe in the hand and see which value rises. Ctrl-C ends.')
  while (!over.signal.aborted) {
    const text = candidatesText(await candidates(way), Date.now())
    if (process.stdout.isTTY) process.stdout.write('\u001b[H\u001b[J')
    console.log(`${text}\n`)
    await pause(process.stdout.isTTY ? REDRAW_MS : LOOK_MS)
  }
}

const candidates = async (way: ServerWay): Promise<Found> =>
  ((await get(way, '/api/find-probe')) as { candidates: Found }).candidates

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

const get = (way: ServerWay, path: string): Promise<unknown> => answerOf(way.ask({ method: 'GET', path }))

const ask = (way: ServerWay, path: string, body: unknown): Promise<unknown> =>
  answerOf(
    way.ask({
      method: 'POST',
      path,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    }),
  )

async function answerOf(asking: ReturnType<ServerWay['ask']>): Promise<unknown> {
  const answer = await asking
  if (!answer.ok)
    throw new UsageError(`${answer.sentence} Start it with "npm start", or name it with --server`)
  if (answer.status === 401 || answer.status === 403) {
    throw new UsageError('the server does not let this command in; give it a key with --key')
  }
  if (answer.status >= 400) throw new Error(`the server answered with status ${answer.status}`)
  return JSON.parse(answer.body) as unknown
}

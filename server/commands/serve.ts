import { createHash, randomBytes } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { RealClock } from '../../bridge/link/real-clock.ts'
import { startServer, webFolder } from '../main.ts'
import { workerWork } from '../serve/heat/worker-work.ts'
import { ListenRefusal } from '../serve/http/listen.ts'
import { openSqliteStore } from '../store/sqlite/open-sqlite-store.ts'
import { StoreRefusal } from '../store/store-refusal.ts'
import type { Store } from '../store/store.ts'
import { Supervisor } from '../tell/supervisor.ts'
import { systemdNotify } from '../tell/systemd-notify.ts'
import { BridgeChild } from './bridge-child.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { type DataLock, lockData } from './data-lock.ts'
import { leave } from './leave.ts'
import { makeLog } from './log.ts'
import { SETTINGS_FLAGS, SettingsFile } from './settings-file.ts'
import { untilSignal } from './until-signal.ts'

const HELP = `Usage: npx --no holdfast serve [flags]

Starts the server with the page, and a bridge beside it for the probes that hang on this computer. Prints one line
"ready http://…" on standard output once both are up. Ends on Ctrl-C or SIGTERM with everything written.

  --data DIR        where everything is kept             (HOLDFAST_DATA, ./data)
  --port N          TCP port; 0 takes a free one         (HOLDFAST_PORT, 4715)
  --host ADDRESS    address to listen on                 (HOLDFAST_HOST, 127.0.0.1)
  --hosts NAMES     further names of this computer       (HOLDFAST_HOSTS)
  --log LEVEL       debug, info, warn, error or silent   (HOLDFAST_LOG, info)
  --studio NAME     the name that the page shows         (HOLDFAST_STUDIO)
  --altitude-m M    metres above the sea                 (HOLDFAST_ALTITUDE_M, 0)
  --unit C|F        unit of sentences sent out           (HOLDFAST_UNIT, C)
  --zone ZONE       time zone of sentences sent out      (HOLDFAST_ZONE, this computer's)
  --language LANG   language of sentences sent out       (HOLDFAST_LANGUAGE, en)
  --money UNIT      what prices are in, such as EUR      (HOLDFAST_MONEY)
  --no-bridge       no bridge beside the server

Settings come from holdfast.json in the data folder; variables overrule it, flags overrule both. docs/settings.md
lists every key.`

export const serve: Command = {
  name: 'serve',
  summary: 'starts the server, the page and a bridge for the probes of this computer',
  help: HELP,
  options: { ...SETTINGS_FLAGS, 'no-bridge': { type: 'boolean' } },
  run: (flags) => runServe(flags),
}

/** Serves until it is asked to end. `onReady` may begin something beside it; what it answers ends that. */
export async function runServe(flags: Flags, onReady: OnReady = () => () => undefined): Promise<number> {
  const file = new SettingsFile(flags, process.env)
  const lock = lockData(file.data)
  try {
    const store = await openSqliteStore(join(file.data, 'holdfast.db')).catch(asUsage)
    try {
      await serveFrom({ store, file, lock, hasOwnBridge: flags['no-bridge'] !== true, onReady })
    } finally {
      await store.close()
    }
  } finally {
    lock.release()
  }
  leave()
  return 0
}

type OnReady = (url: string) => () => void

interface Serving {
  readonly store: Store
  readonly file: SettingsFile
  readonly lock: DataLock
  readonly hasOwnBridge: boolean
  readonly onReady: OnReady
}

async function serveFrom({ store, file, lock, hasOwnBridge, onReady }: Serving): Promise<void> {
  // Heard from the first moment: whoever reads "ready" may end it at once.
  const asked = untilSignal()
  const log = makeLog(file.settings.log)
  const ownKey = randomBytes(24).toString('base64url')
  const here = dirname(fileURLToPath(import.meta.url))
  const clock = new RealClock()
  const notify = systemdNotify((sentence) => log.warn(sentence))
  const supervisor = new Supervisor(clock, process.env, notify)
  const server = await startServer({
    store,
    clock,
    data: file.data,
    supervisor,
    heatWork: workerWork(new URL('heat-worker.js', import.meta.url)),
    log,
    settings: () => file.settings,
    ownKey,
    hasOwnBridge,
    web: webFolder(here),
    version: versionOf(here),
    build: buildOf(fileURLToPath(import.meta.url)),
  }).catch(asUsage)
  const { url } = server
  lock.say(url, ownKey)
  const bridge = hasOwnBridge ? new BridgeChild({ url, data: file.data, key: ownKey, log, clock }) : null
  await bridge?.up()
  console.log(`ready ${url}`)
  supervisor.ready()
  file.watch(
    () => void server.settingsChanged(),
    (why) => log.error(`${why}; the settings from before stay in force`),
  )
  const endBeside = onReady(url)
  await asked
  endBeside()
  supervisor.stopping()
  file.stop()
  await bridge?.stop()
  await server.close()
}

/** What a person can mend ends with exit code 2 and its one sentence. */
function asUsage(error: unknown): never {
  if (error instanceof ListenRefusal || error instanceof StoreRefusal) throw new UsageError(error.message)
  throw error
}

const versionOf = (here: string): string =>
  (JSON.parse(readFileSync(join(here, '..', 'package.json'), 'utf8')) as { version: string }).version

/** The program's own text and what runs it: what one build kept of the watch says nothing to another. */
const buildOf = (program: string): string =>
  createHash('sha256').update(readFileSync(program)).update(process.version).digest('base64url')

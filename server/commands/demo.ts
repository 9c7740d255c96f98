import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { io } from 'socket.io-client'
import type { Pulse } from '#core/wire/live'
import { furnish } from '../demo/furnish.ts'
import { demoProbes } from '../demo/probe-settings.ts'
import { MONEY, STUDIO, WAKE_AT } from '../demo/studio.ts'
import { openSqliteStore } from '../store/sqlite/open-sqlite-store.ts'
import { type Command, type Flags, UsageError } from './command.ts'
import { runServe } from './serve.ts'
import { makeFolder } from '../store/make-folder.ts'

const HELP = `Usage: npx --no holdfast demo [flags]

Starts the same program as serve, in an invented studio: three simulated pots under way and some earlier batches.
The pots obey the dial and the lid that you note on the page. Everything is kept in a throw-away folder.

  --port N          TCP port; 0 takes a free one         (HOLDFAST_PORT, 4715)
  --data DIR        an empty folder to keep the demo in  (a new one, removed at the end)
  --log LEVEL       debug, info, warn, error or silent   (HOLDFAST_LOG, info)

Stop it with Ctrl-C.`

export const demo: Command = {
  name: 'demo',
  summary: 'shows the program in an invented studio with simulated pots',
  help: HELP,
  options: { port: { type: 'string' }, data: { type: 'string' }, log: { type: 'string' } },
  run,
}

async function run(flags: Flags): Promise<number> {
  const kept = typeof flags['data'] === 'string' ? emptyFolder(flags['data']) : null
  const data = kept ?? mkdtempSync(join(tmpdir(), 'holdfast-demo-'))
  try {
    await furnishFolder(data)
    return await runServe({ ...flags, data }, (url) => obeyPage(url, data))
  } finally {
    if (kept === null) rmSync(data, { recursive: true, force: true })
  }
}

function emptyFolder(path: string): string {
  const folder = resolve(path)
  if (filesIn(folder).length > 0)
    throw new UsageError(`--data: ${folder} is not empty; the demo needs an empty folder of its own`)
  return folder
}

function filesIn(folder: string): readonly string[] {
  try {
    makeFolder(folder)
    return readdirSync(folder)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error)
    throw new UsageError(`--data: ${folder} can't be used (${code}); name an empty folder, or one to be made`)
  }
}

async function furnishFolder(data: string): Promise<void> {
  const store = await openSqliteStore(join(data, 'holdfast.db'))
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone
  await store.inOneCommit(() => furnish(store, Date.now(), { unit: 'C', zone, language: 'en' }))
  await store.close()
  const settings = {
    studio: STUDIO,
    money: MONEY,
    wakeAt: WAKE_AT,
    probes: demoProbes((probe) => knobsFile(data, probe)),
  }
  writeFileSync(join(data, 'holdfast.json'), JSON.stringify(settings, null, 2))
}

const knobsFile = (data: string, probe: string): string => join(data, `knobs-${probe}.json`)

/** Turns the knobs of the simulated pots as the page notes them; the answer ends it. */
function obeyPage(url: string, data: string): () => void {
  const socket = io(url, { transports: ['websocket'] })
  const turned = new Map<string, string>()
  socket.on('pulse', ({ pots }: Pulse) => {
    for (const { potId, dial, lid } of pots) {
      const knobs = JSON.stringify({ ...(dial === null ? {} : { dial }), ...(lid === null ? {} : { lid }) })
      if (turned.get(potId) === knobs) continue
      if (turned.has(potId)) writeFileSync(knobsFile(data, potId), knobs)
      turned.set(potId, knobs)
    }
  })
  return () => socket.close()
}

import { readFileSync, unwatchFile, watchFile } from 'node:fs'
import { join, resolve } from 'node:path'
import { decodeSettings, type Settings, type SettingsLayer } from '#core/wire/settings'
import { settingsFromFlags, settingsFromVariables } from '#core/wire/settings-from-text'
import { type Flags, UsageError } from './command.ts'

const FILE = 'holdfast.json'

/** The flags of every command that reads the settings. */
export const SETTINGS_FLAGS = {
  data: { type: 'string' },
  port: { type: 'string' },
  host: { type: 'string' },
  hosts: { type: 'string' },
  log: { type: 'string' },
  studio: { type: 'string' },
  'altitude-m': { type: 'string' },
  unit: { type: 'string' },
  zone: { type: 'string' },
  language: { type: 'string' },
  money: { type: 'string' },
} as const

/** Only looked at every so often: watching by the system's own means misses changes on network folders. */
const LOOK_MS = 1000

/** The settings of the data folder, variables and flags laid over them; read again when the file changes. */
export class SettingsFile {
  readonly data: string
  readonly path: string
  readonly #over: readonly SettingsLayer[]
  #settings: Settings

  /** Throws `UsageError` with one sentence when something is wrong at the start. */
  constructor(flags: Flags, environment: Readonly<Record<string, string | undefined>>) {
    const fromVariables = settingsFromVariables(environment)
    if (typeof fromVariables === 'string') throw new UsageError(fromVariables)
    this.data = resolve(dataFolder(flags, environment))
    this.path = join(this.data, FILE)
    this.#over = [...fromVariables, ...settingsFromFlags(flags)]
    const decoded = this.#read()
    if (typeof decoded === 'string') throw new UsageError(decoded)
    this.#settings = decoded
  }

  get settings(): Settings {
    return this.#settings
  }

  /** A file that became wrong is told of, and the last good one stays in force. */
  watch(onChange: () => void, onWrong: (why: string) => void): void {
    watchFile(this.path, { interval: LOOK_MS }, (now, before) => {
      // Of a file that isn't there Node tells once, at the start, and that is no change.
      if (now.mtimeMs === 0 && before.mtimeMs === 0) return
      const decoded = this.#read()
      if (typeof decoded === 'string') return onWrong(decoded)
      this.#settings = decoded
      return onChange()
    })
  }

  stop(): void {
    unwatchFile(this.path)
  }

  #read(): Settings | string {
    const values = readJson(this.path)
    if (typeof values === 'string') return values
    const decoded = decodeSettings([{ where: FILE, values }, ...this.#over])
    return decoded.ok ? decoded.settings : decoded.why
  }
}

export function dataFolder(flags: Flags, environment: Readonly<Record<string, string | undefined>>): string {
  const flag = flags['data']
  return typeof flag === 'string' && flag !== '' ? flag : (environment['HOLDFAST_DATA'] ?? './data')
}

/** Some editors put one first; RFC 8259 §8.1 lets a reader pass over it. */
const BYTE_ORDER_MARK = /^\uFEFF/

function readJson(path: string): Record<string, unknown> | string {
  try {
    const values: unknown = JSON.parse(readFileSync(path, 'utf8').replace(BYTE_ORDER_MARK, ''))
    const isObject = typeof values === 'object' && values !== null && !Array.isArray(values)
    return isObject ? (values as Record<string, unknown>) : `${FILE}: allowed is one JSON object`
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException
    if (code === 'ENOENT' || code === 'ENOTDIR') return {}
    return code === undefined ? `${FILE} is not JSON: ${message}` : `${path} can't be read (${code})`
  }
}

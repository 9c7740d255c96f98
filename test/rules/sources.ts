import { readFileSync, readdirSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'

const root = join(import.meta.dirname, '../..')

/** The text of a file of this repository; `path` from its root. */
export const read = (path: string): string => readFileSync(join(root, path), 'utf8')

/** Every file below a folder whose name fits, with its path from the root. */
export const filesBelow = (folder: string, fits: RegExp): readonly string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && fits.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))

/** What people read. */
export const PAGES = ['README.md', 'DEVELOPERS.md', ...filesBelow('docs', /\.md$/)]

/** The program: everything but tests, benches and documents. */
export const programFiles = (): readonly string[] =>
  ['bridge', 'server', 'web'].flatMap((place) => filesBelow(place, /\.tsx?$/))

export interface Import {
  /** As it is written. */
  readonly from: string
  /** The file of ours that it leads to; `null` for a package. */
  readonly file: string | null
  /** `true`: only types come in, nothing is run. */
  readonly typeOnly: boolean
  /** The names taken, as they are called there; `*` for all of them. */
  readonly names: readonly string[]
}

const FROM = /^(?:import|export)\s+(type\s+)?([^'"]*?)\s*\bfrom\s+'([^']+)'/gm
const BARE = /^import\s+'([^']+)'|\bimport\(\s*'([^']+)'/gm

/** Every import of a file, static and dynamic. */
export function importsOf(file: string): readonly Import[] {
  const text = read(file)
  const named = [...text.matchAll(FROM)].map(([, type, what, from]) => {
    const names = namesIn(what!)
    const typeOnly = type !== undefined || names.every((name) => name.startsWith('type '))
    const plain = names.map((name) => name.replace(/^type /, '').split(' as ')[0]!)
    return { from: from!, file: fileOf(file, from!), typeOnly, names: plain }
  })
  const bare = [...text.matchAll(BARE)].map(([, plain, dynamic]) => {
    const from = (plain ?? dynamic)!
    return { from, file: fileOf(file, from), typeOnly: false, names: dynamic === undefined ? [] : ['*'] }
  })
  return [...named, ...bare]
}

const namesIn = (what: string): readonly string[] =>
  /^\{([\s\S]*)\}$/
    .exec(what.trim())?.[1]
    ?.split(',')
    .flatMap((n) => n.trim() || []) ?? ['*']

function fileOf(importer: string, from: string): string | null {
  if (from.startsWith('#core/')) return `server/core/${from.slice(6)}.ts`
  return from.startsWith('.') ? join(dirname(importer), from) : null
}

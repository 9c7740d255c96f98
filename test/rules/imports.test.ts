import { existsSync, readFileSync, readdirSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { expect, test } from 'vitest'
import { ROOMS } from './rooms.ts'

const root = join(import.meta.dirname, '../..')

function filesBelow(place: string): string[] {
  return readdirSync(join(root, place), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|tsx)$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
}

const roomOf = (path: string) => {
  const rooms = Object.keys(ROOMS).filter((room) => path.startsWith(`${room}/`))
  return rooms.sort((a, b) => b.length - a.length)[0]
}

/** Where an import leads: a room of ours, or the name of a package. */
function target(file: string, from: string): { room?: string | undefined; pack?: string } {
  if (from.startsWith('#core/')) return { room: roomOf(`server/core/${from.slice(6)}.ts`) }
  if (from.startsWith('.')) return { room: roomOf(join(dirname(file), from)) }
  const parts = from.split('/')
  return { pack: from.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]! }
}

const IMPORT =
  /^\s*(?:import|\}|export)[^'"\n]*?\bfrom\s+'([^']+)'|^\s*import\s+'([^']+)'|\bimport\(\s*'([^']+)'/gm

function wrongImports(file: string): string[] {
  const room = roomOf(file)
  if (room === undefined) return []
  const rule = ROOMS[room]!
  const text = readFileSync(join(root, file), 'utf8')
  const found = [...text.matchAll(IMPORT)].map((m) => (m[1] ?? m[2] ?? m[3])!)
  return found
    .filter((from) => !isAllowed(room, rule, target(file, from)))
    .map((from) => `${file} imports ${from}`)
}

function isAllowed(room: string, rule: (typeof ROOMS)[string], to: ReturnType<typeof target>): boolean {
  if (to.pack !== undefined) return rule.packages === 'any' || rule.packages.includes(to.pack)
  if (to.room === room) return true
  if (rule.rooms === 'any') return true
  return rule.rooms.some((allowed) => to.room === allowed)
}

test('every import keeps to the room table of DEVELOPERS.md', () => {
  const files = ['bridge', 'server', 'web']
    .filter((place) => existsSync(join(root, place)))
    .flatMap(filesBelow)
  expect(files.length).toBeGreaterThan(10)
  expect(
    files.filter((f) => roomOf(f) === undefined && !/^(bridge|server|web)\/main\.tsx?$/.test(f)),
  ).toEqual([])
  expect(files.flatMap(wrongImports)).toEqual([])
})

test('the core never reads a clock or throws dice', () => {
  const touching = filesBelow('server/core').filter((file) =>
    /Date\.now|new Date\(\)|Math\.random|performance\.now/.test(readFileSync(join(root, file), 'utf8')),
  )
  expect(touching).toEqual([])
})

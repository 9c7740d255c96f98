import { expect, test } from 'vitest'
import { ROOMS, type Room } from './rooms.ts'
import { filesBelow, type Import, importsOf, programFiles, read } from './sources.ts'

const roomOf = (path: string) => {
  const rooms = Object.keys(ROOMS).filter((room) => path.startsWith(`${room}/`))
  return rooms.sort((a, b) => b.length - a.length)[0]
}

const packageOf = (from: string): string =>
  from
    .split('/')
    .slice(0, from.startsWith('@') ? 2 : 1)
    .join('/')

function wrongImports(file: string): string[] {
  const room = roomOf(file)
  if (room === undefined) return []
  return importsOf(file)
    .filter((found) => !isAllowed(room, ROOMS[room]!, found))
    .map(({ from }) => `${file} imports ${from}`)
}

function isAllowed(room: string, rule: Room, { file, from }: Import): boolean {
  if (file === null) return rule.packages === 'any' || rule.packages.includes(packageOf(from))
  const to = roomOf(file)
  return to === room || rule.rooms === 'any' || rule.rooms.some((allowed) => to === allowed)
}

test('every import keeps to the room table', () => {
  const files = programFiles()
  expect(files.length).toBeGreaterThan(10)
  expect(
    files.filter(
      (f) => roomOf(f) === undefined && !/^((bridge|server|web)\/main\.tsx?|web\/begin\.ts)$/.test(f),
    ),
  ).toEqual([])
  expect(files.flatMap(wrongImports)).toEqual([])
})

test('DEVELOPERS.md tells of every room', () => {
  const told = [...read('DEVELOPERS.md').matchAll(/^\| `([a-z/]+)` \|/gm)].map((m) => m[1]!)
  expect(told.toSorted()).toEqual([...Object.keys(ROOMS), 'test/kit'].toSorted())
})

test('the core never reads a clock, throws dice or asks its surroundings', () => {
  const touching = filesBelow('server/core', /\.ts$/).filter((file) =>
    /Date\.now|new Date\(\)|[^.\w]Date\(\)|Math\.random|performance\.now|getRandomValues|randomUUID|\bprocess\.|\bglobalThis\b|\.format\(\)/.test(
      read(file),
    ),
  )
  expect(touching).toEqual([])
})

test('no file needs itself by a detour; in the core not even for a type', () => {
  expect(ringsIn(programFiles(), (found) => !found.typeOnly)).toEqual([])
  expect(ringsIn(filesBelow('server/core', /\.ts$/), () => true)).toEqual([])
})

/** Files that reach themselves through their imports, each with the way. */
function ringsIn(files: readonly string[], counts: (found: Import) => boolean): readonly string[] {
  const nexts = new Map(
    files.map((f) => [f, importsOf(f).flatMap((i) => (i.file !== null && counts(i) ? [i.file] : []))]),
  )
  const clear = new Set<string>()
  const ringFrom = (file: string, way: readonly string[]): string | null => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file].join(' → ')
    if (clear.has(file)) return null
    for (const next of nexts.get(file) ?? []) {
      const ring = ringFrom(next, [...way, file])
      if (ring !== null) return ring
    }
    clear.add(file)
    return null
  }
  return files.flatMap((file) => ringFrom(file, []) ?? [])
}

/** Tests import what is public; so do scripts of the folder `test` and the build. */
test('nothing is exported that no other file takes', () => {
  const files = programFiles()
  const takers = [...files, ...filesBelow('test', /\.tsx?$/)]
  const taken = new Set(
    takers.flatMap((f) => importsOf(f).flatMap((i) => i.names.map((n) => `${i.file} ${n}`))),
  )
  const given = files.flatMap((file) =>
    [...read(file).matchAll(/^export (?:async )?(?:function\*?|const|let|class) (\w+)/gm)].map((m) => [
      file,
      m[1]!,
    ]),
  )
  expect(given.length).toBeGreaterThan(100)
  expect(
    given
      .filter(([file, name]) => !taken.has(`${file} ${name}`) && !taken.has(`${file} *`))
      .map((g) => g.join(': ')),
  ).toEqual([])
})

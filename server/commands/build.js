// Builds the program (`dist/holdfast.js`, its learning thread `dist/heat-worker.js` and the pieces of both, by esbuild)
// and the page (`dist/web`, by vite) when their sources are newer than what stands in `dist`. Plain JavaScript: it runs before anything is built.
import { existsSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'

const root = fileURLToPath(new URL('../..', import.meta.url))
const dist = join(root, 'dist')

/** Commands that serve the page. */
const WITH_PAGE = new Set(['serve', 'demo'])

/** Newest change below these places of the checkout, Unix ms. */
function newestMs(places) {
  return Math.max(
    ...places.map((place) => {
      const path = join(root, place)
      const stat = statSync(path)
      if (!stat.isDirectory()) return stat.mtimeMs
      return Math.max(stat.mtimeMs, 0, ...readdirSync(path).map((name) => newestMs([join(place, name)])))
    }),
  )
}

function isStale(output, sources) {
  return !existsSync(output) || statSync(output).mtimeMs < newestMs(sources)
}

/** The program and its learning thread; what several commands share, and each command, are pieces of their own. */
const ENTRIES = { holdfast: 'server/commands/main.ts', 'heat-worker': 'server/serve/heat/heat-worker.ts' }
const PIECE = /^piece-.*\.js$/
/** A program that was started before this build has loaded its pieces by then, ms. */
const PIECES_KEPT_MS = 3_600_000

async function buildProgram() {
  if (!isStale(join(dist, 'holdfast.js'), ['server', 'bridge', 'package.json'])) return
  const { build } = await import('esbuild')
  // Written beside and renamed: two commands that start at once never see half a file.
  const beside = join(dist, `.program-${process.pid}`)
  await build({
    entryPoints: Object.fromEntries(Object.entries(ENTRIES).map(([name, file]) => [name, join(root, file)])),
    outdir: beside,
    bundle: true,
    splitting: true,
    chunkNames: 'piece-[name]-[hash]',
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    logLevel: 'warning',
  })
  // Pieces are named by what is in them; the entry last: once it is fresh, everything is.
  const built = readdirSync(beside).sort((a, b) => Number(PIECE.test(b)) - Number(PIECE.test(a)))
  for (const name of built) if (name !== 'holdfast.js') renameSync(join(beside, name), join(dist, name))
  renameSync(join(beside, 'holdfast.js'), join(dist, 'holdfast.js'))
  rmSync(beside, { recursive: true })
  dropPieces(built)
}

/** Pieces of earlier builds. */
function dropPieces(built) {
  for (const name of readdirSync(dist)) {
    const isOld = PIECE.test(name) && !built.includes(name)
    if (isOld && statSync(join(dist, name)).mtimeMs < Date.now() - PIECES_KEPT_MS) rmSync(join(dist, name))
  }
}

async function buildPage() {
  const stamp = join(dist, 'web', 'index.html')
  if (!isStale(stamp, ['web', 'server/core', 'vite.config.ts', 'package.json'])) return
  const { build } = await import('vite')
  // Whatever the shell has set: the page for development is a fifth larger and slower.
  process.env.NODE_ENV = 'production'
  const beside = join(dist, `.web-${process.pid}`)
  await build({
    configFile: join(root, 'vite.config.ts'),
    // A command may be started from any folder.
    root: join(root, 'web'),
    logLevel: 'error',
    build: { outDir: beside, emptyOutDir: true },
  })
  packAssets(join(beside, 'assets'))
  rmSync(join(dist, 'web'), { recursive: true, force: true })
  renameSync(beside, join(dist, 'web'))
}

/** Beside each file its gzip: over a studio's radio a third of the bytes, and no work for the server. */
function packAssets(folder) {
  for (const name of readdirSync(folder))
    writeFileSync(join(folder, `${name}.gz`), gzipSync(readFileSync(join(folder, name)), { level: 9 }))
}

/** Builds what `command` needs and is out of date. */
export async function buildStale(command) {
  await buildProgram()
  if (WITH_PAGE.has(command)) await buildPage()
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildStale('serve')

// Builds the program (`dist/holdfast.js` and its learning thread `dist/heat-worker.js`, by esbuild) and the page
// (`dist/web`, by vite) when their sources are newer than what stands in `dist`. Plain JavaScript: it runs before anything is built.
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

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

async function buildProgram() {
  // The worker first: once the program is fresh, both are.
  await buildEntry('server/serve/heat/heat-worker.ts', 'heat-worker.js')
  await buildEntry('server/commands/main.ts', 'holdfast.js')
}

async function buildEntry(entry, name) {
  const output = join(dist, name)
  if (!isStale(output, ['server', 'bridge', 'package.json'])) return
  const { build } = await import('esbuild')
  mkdirSync(dist, { recursive: true })
  // Written beside and renamed: two commands that start at once never see half a file.
  const beside = join(dist, `.${process.pid}-${name}`)
  await build({
    entryPoints: [join(root, entry)],
    outfile: beside,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    logLevel: 'warning',
  })
  renameSync(beside, output)
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
  rmSync(join(dist, 'web'), { recursive: true, force: true })
  renameSync(beside, join(dist, 'web'))
}

/** Builds what `command` needs and is out of date. */
export async function buildStale(command) {
  await buildProgram()
  if (WITH_PAGE.has(command)) await buildPage()
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildStale('serve')

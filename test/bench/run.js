// Builds and runs benchmarks: `npm run bench` all of them (about ten minutes), `npm run bench:heat` one;
// what follows `--` goes to the benchmark. They print figures and assert nothing. Plain JavaScript, so that it
// runs as it stands.
import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { buildStale } from '../../server/commands/build.js'

const root = fileURLToPath(new URL('../..', import.meta.url))
const ALL = ['ingest', 'bridge', 'latency', 'heat', 'watch', 'record', 'start']
const [asked = 'all', ...rest] = process.argv.slice(2)
if (asked !== 'all' && !ALL.includes(asked)) {
  console.error(`there is no benchmark "${asked}"; allowed are ${ALL.join(', ')} and all`)
  process.exit(2)
}

// The record is also timed on the page.
if (asked === 'all' || asked === 'record') await buildStale('serve')
const out = join(root, 'dist/bench')
mkdirSync(out, { recursive: true })
await build({
  entryPoints: ALL.map((name) => join(root, `test/bench/${name}.ts`)).concat(
    ['bridge', 'server'].map((name) => join(root, `test/bench/bare/${name}.ts`)),
  ),
  outbase: join(root, 'test/bench'),
  outdir: out,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'warning',
})

for (const name of asked === 'all' ? ALL : [asked]) {
  console.log(`\n== ${name}`)
  const { status } = spawnSync(process.execPath, [join(out, `${name}.js`), ...rest], { stdio: 'inherit' })
  if (status !== 0) process.exit(status ?? 1)
}

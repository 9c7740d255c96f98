#!/usr/bin/env node
// The entry of the command line: builds what is stale, then runs the program. Plain JavaScript, so that a
// fresh clone can start it.
import { buildStale } from './build.js'

try {
  await buildStale(process.argv[2])
} catch (error) {
  if (process.env['HOLDFAST_LOG'] === 'debug') throw error
  const why = String(error?.message ?? error)
    .replaceAll(/\s+/g, ' ')
    .trim()
  process.stderr.write(`holdfast: the program could not be built (${why})\n`)
  process.exit(1)
}
const { main } = await import('../../dist/holdfast.js')
await main(process.argv.slice(2))

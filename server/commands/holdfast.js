#!/usr/bin/env node
// The entry of the command line: builds what is stale, then runs the program. Plain JavaScript, so that a
// fresh clone can start it.
import { buildStale } from './build.js'

await buildStale(process.argv[2])
const { main } = await import('../../dist/holdfast.js')
await main(process.argv.slice(2))

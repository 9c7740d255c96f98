import { decodeTrace } from '#core/wire/trace-file'
import { type Command, type Flags, UsageError } from './command.ts'
import { readPlan, readText, readVessel } from './read-file.ts'
import { replayAsJson } from './replay-json.ts'
import { replayAsText } from './replay-text.ts'

export const replay: Command = {
  name: 'replay',
  summary: 'runs a recorded trace through the watch',
  help: `Usage: npx --no holdfast replay --plan P --trace T [flags]

Lets the watch look at a recorded day, by the clock of the file: what it would have
called, and what the hold came to.

  --plan P       a plan file (*.plan.json)
  --trace T      a trace file: CSV with the columns time,temp_c,event
  --vessel V     a vessel file: makes forecasts and what is expected of the pot better
  --lag-s N      the probe's time constant in seconds; left out: learned where it shows
  --forecasts    adds what was to come, at least every five minutes of the trace
  --json         one JSON object a line: the happenings, then one summary

Exit code 0 however the day went; 2 when a file or a flag is wrong.`,
  options: {
    plan: { type: 'string' },
    trace: { type: 'string' },
    vessel: { type: 'string' },
    'lag-s': { type: 'string' },
    forecasts: { type: 'boolean' },
    json: { type: 'boolean' },
  },
  run(flags) {
    const plan = readPlan(pathOf(flags, 'plan'))
    const tracePath = pathOf(flags, 'trace')
    const setup = { plan, vessel: vesselOf(flags['vessel']), lagS: lagOf(flags['lag-s']) }
    const decoded = decodeTrace(
      readText(tracePath),
      plan.stages.map((s) => s.id),
    )
    if (!decoded.ok) throw new UsageError(`trace ${tracePath}, ${decoded.why}`)
    const forecasts = flags['forecasts'] === true
    const run = flags['json'] === true ? replayAsJson : replayAsText
    run(decoded.trace, setup, forecasts, (text) => process.stdout.write(text))
    return Promise.resolve(0)
  },
}

function pathOf(flags: Flags, name: 'plan' | 'trace'): string {
  const path = flags[name]
  if (typeof path !== 'string')
    throw new UsageError(
      `replay needs --${name} and a file, as in --${name} red.${name === 'plan' ? 'plan.json' : 'csv'}`,
    )
  return path
}

const vesselOf = (path: Flags[string]) => (typeof path === 'string' ? readVessel(path) : null)

function lagOf(text: Flags[string]): number | null {
  if (typeof text !== 'string') return null
  const lagS = /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN
  if (!(lagS <= 600))
    throw new UsageError(`--lag-s is "${text}"; allowed is a number of seconds from 0 to 600`)
  return lagS
}

import type { PotTrace } from '#core/bath/pot-trace'
import { tunePot } from '#core/bath/tune'
import type { Vessel } from '#core/bath/vessel'
import { POSSIBLE_C } from '#core/measure/reading'
import { decodeTrace } from '#core/wire/trace-file'
import { type Command, type Flags, UsageError } from './command.ts'
import { readText, readVessel } from './read-file.ts'
import { missingSentence, tuneAsJson, tuneAsText } from './tune-text.ts'

export const tune: Command = {
  name: 'tune',
  summary: 'learns a pot on its burner from traces and says how to set the dial',
  help: `Usage: npx --no holdfast tune --vessel V --trace T [--trace T ...] --target C [--json]

Finds in recorded traces, with the dial: and lid: words noted in them, how a pot answers
its burner, and says which dial heats, when to turn down and which dial holds.

  --vessel V     a vessel file: litres and the top of the dial at least
  --trace T      a trace file: CSV with the columns time,temp_c,event; may be given again
  --target C     the temperature to hold, °C
  --json         one JSON object; null where the traces say too little, and why on
                 standard error

Watts are those that reach the water. It advises and never switches heat.`,
  options: {
    vessel: { type: 'string' },
    trace: { type: 'string', multiple: true },
    target: { type: 'string' },
    json: { type: 'boolean' },
  },
  run(flags) {
    const targetC = targetOf(flags['target'])
    const vessel = readVessel(pathOf(flags['vessel']))
    const traces = pathsOf(flags).map((path) => readTrace(path, vessel))
    const tuning = tunePot(
      vessel,
      traces.sort((a, b) => begin(a) - begin(b)),
      targetC,
    )
    for (const missing of tuning.missing) console.error(`holdfast: ${missingSentence(missing, targetC)}`)
    console.log(flags['json'] === true ? tuneAsJson(tuning) : tuneAsText(tuning, targetC))
    return Promise.resolve(0)
  },
}

const begin = (trace: PotTrace): number => trace.readings[0]?.atMs ?? 0

function pathOf(path: Flags[string]): string {
  if (typeof path !== 'string')
    throw new UsageError('tune needs --vessel and a file, as in --vessel heron.json')
  return path
}

function pathsOf(flags: Flags): readonly string[] {
  const paths = flags['trace']
  if (!Array.isArray(paths) || paths.length === 0)
    throw new UsageError('tune needs --trace and a file at least once, as in --trace evening.csv')
  return paths.map(String)
}

function targetOf(text: Flags[string]): number {
  const targetC = typeof text === 'string' && text.trim() !== '' ? Number(text) : Number.NaN
  if (!(targetC >= -5 && targetC <= 105)) {
    const found = text === undefined ? 'missing' : `"${String(text)}"`
    throw new UsageError(`--target is ${found}; allowed is a temperature from -5 to 105 °C`)
  }
  return targetC
}

function readTrace(path: string, vessel: Vessel): PotTrace {
  const decoded = decodeTrace(readText(path), null)
  if (!decoded.ok) throw new UsageError(`trace ${path}, ${decoded.why}`)
  const { moments } = decoded.trace
  const readings = moments.flatMap(({ atMs, tempC }) =>
    tempC !== null && tempC >= POSSIBLE_C.low && tempC <= POSSIBLE_C.high ? [{ atMs, tempC }] : [],
  )
  const events = moments.flatMap(({ atMs, events: words }) => words.map((event) => ({ atMs, event })))
  const { dialMax } = vessel.burner
  for (const { event } of events)
    if (event.kind === 'dial' && event.dial > dialMax)
      throw new UsageError(
        `trace ${path} has dial:${event.dial}; the vessel's burner.dialMax is ${dialMax}, allowed is 0 to ${dialMax}`,
      )
  return { readings, events }
}

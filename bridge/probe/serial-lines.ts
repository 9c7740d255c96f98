import type { Cancel } from '#core/measure/clock'
import { splitLines, startSplit } from '#core/measure/split-lines'
import type { SettingsOf } from '#core/wire/probe-settings'
import { escapedBytes } from './escape-text.ts'
import { lineReader, samplesOf } from './line-samples.ts'
import type { OpenPort } from './serial-door.ts'
import { SerialWay } from './serial-way.ts'
import type { OpenSource, Sink } from './source.ts'

/** Text lines from a serial port, by the line template of the settings. */
export const openSerialLines: OpenSource<SettingsOf<'serial-lines'>> = (settings, sink, world) => {
  const reader = lineReader(settings.name, settings.line, settings.names, settings.signal)
  // Half of `T=81.2` is seen to be half; half of `81.2` is not.
  const dropFirst = reader.template.parts[0]?.kind === 'field' && settings.ask === undefined
  let split = startSplit(dropFirst)
  let cancelAsk: Cancel | null = null

  const ask = (port: OpenPort, query: Uint8Array, everyMs: number): void => {
    port.write(query)
    cancelAsk = world.clock.after(everyMs, () => ask(port, query, everyMs))
  }

  const way = new SerialWay({
    settings,
    sink,
    world,
    user: {
      opened: (port) => {
        split = startSplit(dropFirst)
        if (settings.wake !== undefined) port.write(escapedBytes(settings.wake))
        if (settings.ask !== undefined)
          ask(port, escapedBytes(settings.ask.query), settings.ask.everyS * 1000)
      },
      data: (bytes) => {
        const step = splitLines(split, bytes)
        split = step.state
        const atMs = world.clock.nowMs()
        for (const line of step.lines) tell(sink, samplesOf(reader, line, atMs))
        if (step.dropped > 0)
          sink.refused('a line that was too long, or had begun before the port was opened')
      },
      lost: () => cancelAsk?.(),
    },
  })
  return {
    close: () => {
      cancelAsk?.()
      return way.close()
    },
  }
}

function tell(sink: Sink, found: ReturnType<typeof samplesOf>): void {
  if (found.ok) for (const sample of found.samples) sink.sample(sample)
  else sink.refused(found.why)
}

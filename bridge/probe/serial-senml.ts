import { splitLines, startSplit } from '#core/measure/split-lines'
import type { SettingsOf } from '#core/wire/probe-settings'
import { escapedBytes } from './escape-text.ts'
import { NAMELESS, tellSenml } from './senml-samples.ts'
import { SerialWay } from './serial-way.ts'
import type { OpenSource } from './source.ts'

/** SenML from a serial port, one pack or record a line. Half a line is no JSON, so none has to be dropped. */
export const openSerialSenml: OpenSource<SettingsOf<'serial-senml'>> = (settings, sink, world) => {
  let split = startSplit(false)
  const probeOf = (name: string) => (name === NAMELESS ? settings.name : name)
  return new SerialWay({
    settings,
    sink,
    world,
    user: {
      opened: (port) => {
        split = startSplit(false)
        if (settings.wake !== undefined) port.write(escapedBytes(settings.wake))
      },
      data: (bytes) => {
        const step = splitLines(split, bytes)
        split = step.state
        const atMs = world.clock.nowMs()
        for (const line of step.lines) tellSenml(line, atMs, sink, probeOf)
        if (step.dropped > 0) sink.refused('a line that was too long')
      },
      lost: () => {},
    },
  })
}

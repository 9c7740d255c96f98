import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Cancel } from '#core/measure/clock'
import type { Sample } from '#core/measure/reading'
import { sampleOf } from '#core/measure/sample-of'
import { scratchpadC } from '#core/measure/scratchpad'
import type { SettingsOf } from '#core/wire/probe-settings'
import type { OpenSource } from './source.ts'

/** A folder like the kernel's one-wire one: a folder a device, in it the file `w1_slave`. */
const DEVICE = /^[0-9a-f]{2}-[0-9a-f]{12}$/

/** Probes as files of the kernel's one-wire driver. */
export const openOneWireFiles: OpenSource<SettingsOf<'one-wire-files'>> = (settings, sink, world) => {
  let isClosed = false
  let cancel: Cancel | null = null
  let wayState = ''

  const way = (state: 'open' | 'trouble', sentence: string): void => {
    if (sentence !== wayState) sink.way(state, sentence)
    wayState = sentence
  }

  const round = async (): Promise<void> => {
    const startMs = world.clock.nowMs()
    const devices = await devicesIn(settings.folder)
    if (isClosed) return
    if (typeof devices === 'string') way('trouble', devices)
    else {
      way('open', `${settings.folder} is read every ${settings.everyS} s`)
      for (const device of wanted(settings, devices)) {
        const text = await readFile(join(settings.folder, device.number, 'w1_slave'), 'latin1').catch(
          () => null,
        )
        if (!isClosed) sink.sample(deviceSample(device.probe, world.clock.nowMs(), text))
      }
    }
    const restMs = Math.max(0, settings.everyS * 1000 - (world.clock.nowMs() - startMs))
    if (!isClosed)
      cancel = world.clock.after(restMs, () => {
        running = round()
      })
  }

  let running = round()
  return {
    close: async () => {
      isClosed = true
      cancel?.()
      await running
    },
  }
}

async function devicesIn(folder: string): Promise<readonly string[] | string> {
  try {
    return (await readdir(folder)).filter((name) => DEVICE.test(name)).sort()
  } catch {
    return `${folder} can't be read; is the one-wire driver switched on? See docs/probes/one-wire-files.md`
  }
}

interface Device {
  readonly number: string
  readonly probe: string
}

/** With names in the settings these devices and no others, present or not: a missing one is a fault, not a silence. */
function wanted(settings: SettingsOf<'one-wire-files'>, present: readonly string[]): readonly Device[] {
  if (settings.devices !== undefined) {
    return Object.entries(settings.devices).map(([number, probe]) => ({ number, probe }))
  }
  const [only] = present
  if (present.length === 1 && only !== undefined) return [{ number: only, probe: settings.name }]
  return present.map((number) => ({ number, probe: number }))
}

/** The text is two lines: the nine bytes with the kernel's word on the checksum, and again with the value. */
function deviceSample(probe: string, atMs: number, text: string | null): Sample {
  if (text === null) return fault(probe, atMs, 'not-connected', 'no file of this device')
  const bytes = /^((?:[0-9a-f]{2} ){9}):/i.exec(text)?.[1]
  if (bytes === undefined) return fault(probe, atMs, 'error-code', text.trim() === '' ? 'empty file' : text)
  const value = scratchpadC(
    bytes
      .trim()
      .split(' ')
      .map((b) => Number.parseInt(b, 16)),
  )
  return value.ok ? sampleOf(probe, atMs, value.tempC) : fault(probe, atMs, value.fault, value.found)
}

const fault = (
  probe: string,
  atMs: number,
  kind: Extract<Sample, { kind: 'fault' }>['fault'],
  found: string,
): Sample => ({ kind: 'fault', probe, atMs, fault: kind, found: found.replace(/\s+/g, ' ').slice(0, 80) })

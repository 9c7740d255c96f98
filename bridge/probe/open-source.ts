import type { ProbeSettings } from '#core/wire/probe-settings'
import { openModbusRtu } from './modbus-rtu.ts'
import { openMqtt } from './mqtt.ts'
import { openOneWireFiles } from './one-wire-files.ts'
import { openRecorded } from './recorded.ts'
import { openSerialLines } from './serial-lines.ts'
import { openSerialSenml } from './serial-senml.ts'
import { openSimulated } from './simulated.ts'
import { shownUrl } from '#core/wire/probe-secrets'
import type { OpenSource } from './source.ts'

/** Opens the source that an entry of the settings describes. */
export const openSource: OpenSource<ProbeSettings> = (settings, sink, world) => {
  switch (settings.kind) {
    case 'serial-lines':
      return openSerialLines(settings, sink, world)
    case 'serial-senml':
      return openSerialSenml(settings, sink, world)
    case 'modbus-rtu':
      return openModbusRtu(settings, sink, world)
    case 'mqtt':
      return openMqtt(settings, sink, world)
    case 'one-wire-files':
      return openOneWireFiles(settings, sink, world)
    case 'recorded':
      return openRecorded(settings, sink, world)
    case 'simulated':
      return openSimulated(settings, sink, world)
    default:
      return settings satisfies never
  }
}

/** Where a source hangs, in words. */
export function whereOf(settings: ProbeSettings): string {
  switch (settings.kind) {
    case 'serial-lines':
    case 'serial-senml':
    case 'modbus-rtu':
      return (
        settings.path ??
        `USB ${[settings.usb?.vendorId, settings.usb?.productId, settings.usb?.serialNumber].filter(Boolean).join(':')}`
      )
    case 'mqtt':
      return `${settings.topic} at ${shownUrl(settings.url)}`
    case 'one-wire-files':
      return settings.folder
    case 'recorded':
      return settings.file
    case 'simulated':
      return 'simulated'
    default:
      return settings satisfies never
  }
}

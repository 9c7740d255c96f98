import type { UsbIdentity } from '#core/wire/probe-kinds/port'
import type { PortInfo } from './serial-door.ts'

export type FoundPort =
  | { readonly ok: true; readonly path: string }
  | { readonly ok: false; readonly sentence: string }

/** The one port with this identity. Two that match are refused: guessing would swap two baths. */
export function findPort(ports: readonly PortInfo[], usb: UsbIdentity): FoundPort {
  const matching = ports.filter((port) => isMatch(port, usb))
  const [first, second] = matching
  if (first === undefined) {
    return {
      ok: false,
      sentence: `no port is ${identityText(usb)}; is the probe plugged in? It will be found by itself when it comes`,
    }
  }
  if (second !== undefined) {
    const paths = matching.map((port) => port.path).join(', ')
    return {
      ok: false,
      sentence:
        `${matching.length} ports are ${identityText(usb)} (${paths}); ` +
        `give a serialNumber, or the path below /dev/serial/by-path, to say which`,
    }
  }
  return { ok: true, path: first.path }
}

/** Is this port the one that the identity means? What the identity leaves out may be anything. */
export const isMatch = (port: PortInfo, usb: UsbIdentity): boolean =>
  same(port.vendorId, usb.vendorId) &&
  (usb.productId === undefined || same(port.productId, usb.productId)) &&
  (usb.serialNumber === undefined || port.serialNumber === usb.serialNumber)

const same = (a: string | null, b: string): boolean => a !== null && a.toLowerCase() === b.toLowerCase()

const identityText = (usb: UsbIdentity): string =>
  [
    `USB vendor ${usb.vendorId}`,
    usb.productId === undefined ? '' : ` product ${usb.productId}`,
    usb.serialNumber === undefined ? '' : ` serial number ${usb.serialNumber}`,
  ].join('')

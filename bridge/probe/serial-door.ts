/** The serial ports of this computer, behind an interface so that a test can hand in its own. */
export interface SerialDoor {
  /** Every port that is plugged in now. */
  readonly list: () => Promise<readonly PortInfo[]>
  /** Opens a port. Rejects with a `PortTrouble` where a person can do something. */
  readonly open: (path: string, options: PortOptions, listener: PortListener) => Promise<OpenPort>
  /** Something that changes when another device takes this path; `null` when there is nothing. */
  readonly identity: (path: string) => Promise<string | null>
}

export interface PortInfo {
  readonly path: string
  /** Four hexadecimal digits, lower case. */
  readonly vendorId: string | null
  readonly productId: string | null
  readonly serialNumber: string | null
  readonly maker: string | null
}

export interface PortOptions {
  readonly baud: number
  readonly dataBits: 7 | 8
  readonly parity: 'none' | 'even' | 'odd'
  readonly stopBits: 1 | 2
}

export interface PortListener {
  data(bytes: Uint8Array): void
  /** The port went away by itself; told once, never after `close`. */
  gone(why: string): void
}

export interface OpenPort {
  write(bytes: Uint8Array): void
  close(): Promise<void>
}

/** Why a port can't be opened, in one sentence with what to do. */
export class PortTrouble extends Error {
  override readonly name = 'PortTrouble'
}

/** A sentence for what the operating system said when opening `path`. */
export function portTrouble(path: string, message: string): string {
  if (/EACCES|permission denied/i.test(message)) {
    return (
      `${path} may not be opened by this user; add the user to the group that owns serial ports ` +
      `(Debian: sudo usermod -aG dialout $USER), then log in again; see docs/probes.md`
    )
  }
  if (/cannot lock port|EBUSY|temporarily unavailable|resource busy/i.test(message)) {
    return `${path} is held by another program; end that program, it will be opened by itself then`
  }
  if (/ENOENT|no such file|not found/i.test(message)) {
    return `${path} is not there; is the probe plugged in? It will be found by itself when it comes`
  }
  return `${path} can't be opened: ${message.replace(/^Error:\s*/, '').slice(0, 160)}`
}

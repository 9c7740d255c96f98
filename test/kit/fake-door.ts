import type { OpenPort, PortInfo, PortListener, SerialDoor } from '../../bridge/probe/serial-door.ts'
import { PortTrouble, portTrouble } from '../../bridge/probe/serial-door.ts'

/** Serial ports that exist only in a test: plugged in, fed, garbled and pulled by hand. */
export class FakeDoor implements SerialDoor {
  readonly #ports = new Map<string, FakePort>()
  /** What the operating system says instead of opening a path. */
  readonly refusals = new Map<string, string>()
  /** Paths whose driver never lets go of a port that is closed. */
  readonly hangs = new Set<string>()
  opened = 0

  plugIn(info: Partial<PortInfo> & { readonly path: string }): void {
    this.#ports.set(info.path, {
      info: { vendorId: null, productId: null, serialNumber: null, maker: null, ...info },
      listener: null,
      written: '',
      life: Math.random(),
    })
  }

  /** The plug is out. A `silent` system tells nobody. */
  unplug(path: string, how: 'told' | 'silent' = 'told'): void {
    const port = this.#ports.get(path)
    this.#ports.delete(path)
    if (how === 'told') port?.listener?.gone(`${path} went away; is the plug still in?`)
  }

  feed(path: string, text: string): void {
    this.#ports.get(path)?.listener?.data(Uint8Array.from(text, (c) => c.charCodeAt(0)))
  }

  written(path: string): string {
    return this.#ports.get(path)?.written ?? ''
  }

  isOpen(path: string): boolean {
    return this.#ports.get(path)?.listener != null
  }

  readonly list = (): Promise<readonly PortInfo[]> =>
    Promise.resolve([...this.#ports.values()].map((p) => p.info))

  readonly identity = (path: string): Promise<string | null> =>
    Promise.resolve(this.#ports.get(path)?.life.toString() ?? null)

  readonly open = (path: string, _: unknown, listener: PortListener): Promise<OpenPort> => {
    const refusal =
      this.refusals.get(path) ?? (this.#ports.has(path) ? null : 'Error: No such file or directory')
    if (refusal !== null) return Promise.reject(new PortTrouble(portTrouble(path, refusal)))
    const port = this.#ports.get(path)!
    port.listener = listener
    this.opened++
    return Promise.resolve({
      write: (bytes) => {
        port.written += String.fromCharCode(...bytes)
      },
      close: () => {
        port.listener = null
        return this.hangs.has(path) ? new Promise(() => undefined) : Promise.resolve()
      },
    })
  }
}

interface FakePort {
  readonly info: PortInfo
  listener: PortListener | null
  written: string
  readonly life: number
}

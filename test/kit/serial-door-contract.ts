import { afterEach, beforeEach, expect, test } from 'vitest'
import type { OpenPort, SerialDoor } from '../../bridge/probe/serial-door.ts'
import { until } from './until.ts'

/** One port behind a door, with the device at its other end in the test's hand. */
export interface PortBench {
  readonly door: SerialDoor
  readonly path: string
  /** The device says something. */
  send(text: string): void
  /** What the bridge has written to the device so far. */
  heard(): string
  pull(): Promise<void>
  plug(): Promise<void>
  end(): Promise<void>
}

const OPTIONS = { baud: 9600, dataBits: 8, parity: 'none', stopBits: 1 } as const

/** What every door must do, the one of the tests as well as the real one. */
export function serialDoorContract(make: () => Promise<PortBench>): void {
  let bench: PortBench
  let port: OpenPort | null
  let text: string
  let gone: string[]
  const listener = {
    data: (bytes: Uint8Array) => {
      text += String.fromCharCode(...bytes)
    },
    gone: (why: string) => void gone.push(why),
  }
  const open = async () => (port = await bench.door.open(bench.path, OPTIONS, listener))

  /** Pulled in the very moment of opening, the library may miss it; `SerialWay` looks after the path for that. */
  const openAndHear = async () => {
    await open()
    bench.send('.')
    await until(() => text === '.')
    await new Promise((resolve) => setTimeout(resolve, 200))
    text = ''
  }

  beforeEach(async () => {
    bench = await make()
    port = null
    text = ''
    gone = []
  })
  afterEach(async () => {
    await port?.close()
    await bench.end()
  })

  test('bytes arrive as they were sent', async () => {
    await open()
    bench.send('T=71.2\r\n\x80\xff')
    await until(() => text.length === 10)
    expect(text).toBe('T=71.2\r\n\x80\xff')
  })

  test('what is written reaches the device', async () => {
    const opened = await open()
    opened.write(Uint8Array.from([82, 69, 65, 68, 10]))
    await until(() => bench.heard().length === 5)
    expect(bench.heard()).toBe('READ\n')
  })

  test('a pulled plug is told once, and nothing comes after it', async () => {
    await openAndHear()
    await bench.pull()
    await until(() => gone.length > 0)
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect(gone).toHaveLength(1)
    expect(gone[0]).toContain('is the plug still in?')
  })

  test('a port that was closed by us tells nothing, neither bytes nor its going', async () => {
    const opened = await open()
    await opened.close()
    bench.send('T=71.2\n')
    await bench.pull()
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect([text, gone]).toEqual(['', []])
  })

  test('a path with nothing behind it is refused in a sentence', async () => {
    await bench.pull()
    await expect(open()).rejects.toThrow(/is not there; is the probe plugged in/)
  })

  test('the identity of a path is the same while a device stays, and nothing when it is gone', async () => {
    const before = await bench.door.identity(bench.path)
    expect(before).not.toBeNull()
    expect(await bench.door.identity(bench.path)).toBe(before)
    await bench.pull()
    expect(await bench.door.identity(bench.path)).toBeNull()
  })

  test('the same path can be opened again after the plug was out', async () => {
    await openAndHear()
    await bench.pull()
    await until(() => gone.length > 0)
    await bench.plug()
    await open()
    bench.send('T=71.3\n')
    await until(() => text.includes('T=71.3\n'))
    expect(text).toBe('T=71.3\n')
  })
}

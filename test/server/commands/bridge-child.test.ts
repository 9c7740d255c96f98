import type { ChildProcess } from 'node:child_process'
import { EventEmitter } from 'node:events'
import { pino } from 'pino'
import { expect, test } from 'vitest'
import { BridgeChild } from '../../../server/commands/bridge-child.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { settle } from '../../kit/fake-world.ts'

/** A process that ends on the given signal alone; `null`: on none, as one that hangs in a driver. */
class FakeChild extends EventEmitter {
  readonly #endsOn: string | null
  readonly signals: string[] = []
  readonly stderr = null
  readonly connected = true
  pid = 4711
  exitCode: number | null = null
  signalCode: string | null = null
  isLetGo = false

  constructor(endsOn: string | null) {
    super()
    this.#endsOn = endsOn
  }
  kill(signal: string): void {
    this.signals.push(signal)
    if (signal === this.#endsOn) this.exit(null, signal)
  }
  exit(code: number | null, signal: string | null): void {
    this.exitCode = code
    this.signalCode = signal
    this.emit('exit', code, signal)
  }
  unref(): void {
    this.isLetGo = true
  }
  disconnect(): void {}
}

function bridgeThatEndsOn(signal: string | null) {
  const clock = new HandClock()
  const started: FakeChild[] = []
  const start = () => {
    started.push(new FakeChild(signal))
    return started.at(-1) as unknown as ChildProcess
  }
  const log = pino({ level: 'silent' })
  const bridge = new BridgeChild({ url: 'http://127.0.0.1:9', data: '.', key: 'k', log, clock, start })
  return { clock, started, bridge }
}

test('a bridge that ends when asked is asked and no more', async () => {
  const { clock, started, bridge } = bridgeThatEndsOn('SIGTERM')
  await bridge.stop()
  expect(started[0]!.signals).toEqual(['SIGTERM'])
  expect(clock.pending).toBe(0)
})

test('a bridge that does not hear is made to end after four seconds', async () => {
  const { clock, started, bridge } = bridgeThatEndsOn('SIGKILL')
  const stopped = bridge.stop()
  clock.advance(4000)
  await stopped
  expect(started[0]!.signals).toEqual(['SIGTERM', 'SIGKILL'])
})

test('a bridge that nobody can end, because it hangs in a driver, does not hold the server up', async () => {
  const { clock, started, bridge } = bridgeThatEndsOn(null)
  const stopped = bridge.stop()
  clock.advance(4000)
  await settle()
  clock.advance(1000)
  await stopped
  expect(started[0]!.isLetGo).toBe(true)
})

test('a bridge that dies is started again, later each time, and not once the server ends', async () => {
  const { clock, started, bridge } = bridgeThatEndsOn('SIGTERM')
  started[0]!.exit(1, null)
  clock.advance(499)
  expect(started).toHaveLength(1)
  clock.advance(1)
  expect(started).toHaveLength(2)
  started[1]!.exit(1, null)
  clock.advance(999)
  expect(started).toHaveLength(2)
  await bridge.stop()
  clock.advance(60_000)
  expect(started).toHaveLength(2)
})

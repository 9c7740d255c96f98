import type { Sample } from '#core/measure/reading'
import type { Sink, World } from '../../bridge/probe/source.ts'
import { FakeDoor } from './fake-door.ts'
import { HandClock } from './hand-clock.ts'

/** A world without hardware: a hand clock and fake ports. */
export function fakeWorld(): World & { readonly clock: HandClock; readonly serial: FakeDoor } {
  return {
    clock: new HandClock(),
    random: () => 0.5,
    serial: new FakeDoor(),
    machineId: 'a-test-machine',
    brokerLogin: () => null,
  }
}

/** Keeps everything that a source tells. */
export class Listener implements Sink {
  readonly samples: Sample[] = []
  readonly refusals: string[] = []
  readonly ways: string[] = []
  readonly goneProbes: string[] = []
  readonly batteries: (readonly [string, number])[] = []

  sample(sample: Sample): void {
    this.samples.push(sample)
  }
  refused(why: string): void {
    this.refusals.push(why)
  }
  way(state: 'open' | 'trouble', sentence: string): void {
    this.ways.push(`${state}: ${sentence}`)
  }
  gone(probe: string): void {
    this.goneProbes.push(probe)
  }
  battery(probe: string, percent: number): void {
    this.batteries.push([probe, percent])
  }

  /** `wren 71.2` or `wren not-connected`, in the order they came. */
  get heard(): readonly string[] {
    return this.samples.map((s) => `${s.probe} ${s.kind === 'temp' ? Number(s.rawC.toFixed(3)) : s.fault}`)
  }
}

/** Lets everything that is ready to go on go on. */
export async function settle(): Promise<void> {
  for (let i = 0; i < 20; i++) await Promise.resolve()
}

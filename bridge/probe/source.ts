import type { Clock } from '#core/measure/clock'
import type { Sample } from '#core/measure/reading'
import type { SerialDoor } from './serial-door.ts'

/** A way to one or more probes, open until it is closed. It reconnects by itself. */
export interface Source {
  /** Ends it; nothing is told to the sink once this has begun. */
  close(): Promise<void>
}

/** Where a source tells what it found. */
export interface Sink {
  /** A value or a fault of a probe, stamped at its arrival. */
  sample(sample: Sample): void
  /** Something came that was no reading: one sentence. */
  refused(why: string): void
  /** The way to the probe opened, or is in trouble and why: one clear sentence with what to do. */
  way(state: 'open' | 'trouble', sentence: string): void
  /** The device itself says that it has gone (its last will). */
  gone(probe: string, sentence: string): void
  /** Charge of the probe's battery, percent. */
  battery(probe: string, percent: number): void
}

/** What a source may touch of the world. */
export interface World {
  readonly clock: Clock
  /** 0 ≤ x < 1, for the jitter of back-off. */
  random(): number
  readonly serial: SerialDoor
  /** Identifies this computer towards a broker; the same at every start. */
  readonly machineId: string
  /** How the bridge's own broker is entered, when `url` is that broker. */
  brokerLogin(url: string): { readonly user: string; readonly password: string } | null
}

/** Opens a source; never throws and never waits: what is wrong goes to the sink. */
export type OpenSource<S> = (settings: S, sink: Sink, world: World) => Source

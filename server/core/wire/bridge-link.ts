import { z } from 'zod'
import type { ProbeSettings } from './probe-settings.ts'
import type { LampSettings } from './tell-settings.ts'

/**
 * What bridge and server tell each other besides readings.
 *
 * `POST /api/readings` (SenML) is answered with `ReadingsAnswer` after the commit.
 * `GET /api/bridge/settings?bridge=NAME&own=1` (`own=0` for one that runs alone) is polled every 2 s with
 * `If-None-Match`; the answer carries an `ETag` over all but `nowMs` and is kept by the bridge on disk, so that it
 * starts without a server too.
 * `POST /api/bridge/state` comes every 2 s and on change; silence of it means that the bridge is lost. It is
 * answered with 503 while the server's watch stands still: a server that only stores does not watch.
 * All three carry `Authorization: Bearer <key>` where the server asks for one.
 */
export interface BridgeSettings {
  readonly probes: readonly ProbeSettings[]
  /** A person is looking for a probe: list ports and topics with live values in the state. */
  readonly find: boolean
  /** A broker for those who have none, run by the bridge; `null`: off. */
  readonly broker: BrokerSettings | null
  /** Ceilings that the bridge goes by while the server is silent; none where no heated stage runs. */
  readonly limits?: readonly ProbeLimit[]
  /** The broker of the lamps, so that the bridge can light them while the server is silent. */
  readonly lamp?: LampSettings | null
  /** The server's clock, Unix ms: a bridge whose own was never set goes by it. */
  readonly nowMs: number
}

/**
 * The probes that a bridge is to read: those that name it, and those that name none when it is the server's own
 * (`isOwn`) or the server has no bridge of its own.
 */
export function probesOfBridge(
  probes: readonly ProbeSettings[],
  bridge: string,
  { isOwn, hasOwn }: { readonly isOwn: boolean; readonly hasOwn: boolean },
): readonly ProbeSettings[] {
  return probes.filter(
    (p) => p.enabled !== false && (p.bridge === undefined ? isOwn || !hasOwn : p.bridge === bridge),
  )
}

/** The ceiling of the stage that runs in the pot where this probe hangs, as the probe itself would read it, °C. */
export const probeLimit = z.object({
  probe: z.string(),
  /** The pot's id, as in the lamps' topics, and its title. */
  pot: z.string(),
  title: z.string(),
  rawC: z.number(),
})
export type ProbeLimit = z.infer<typeof probeLimit>

/** The broker that the bridge runs. Closed to strangers: without a user there is no way in but the bridge's own. */
export const brokerSettings = z.strictObject({
  enabled: z.boolean().default(true),
  host: z.string().min(1).max(255).default('127.0.0.1'),
  port: z.number().int().min(0).max(65_535).default(1883),
  /** Each device has its own name and password; it may publish below `<its name>/` and nowhere else. */
  users: z
    .array(
      z.strictObject({
        user: z.string().regex(/^[A-Za-z0-9_.-]{1,64}$/, 'allowed are letters, digits and - . _'),
        password: z.string().min(8).max(256),
      }),
    )
    .max(200)
    .default([]),
})
export type BrokerSettings = z.infer<typeof brokerSettings>

/** Answer to `POST /api/readings`. What is not in `refused` is committed. `index` counts the records sent. */
export const readingsAnswer = z.object({
  stored: z.number(),
  refused: z.array(z.object({ index: z.number(), why: z.string() })),
})
export type ReadingsAnswer = z.infer<typeof readingsAnswer>

/**
 * `ok`: readings come. `silent`: the way is open and nothing comes. `trouble`: the way is not open. `waiting`:
 * just opened, nothing yet and not yet time to call it silent.
 */
const PROBE_STATES = ['ok', 'silent', 'trouble', 'waiting'] as const
export type ProbeState = (typeof PROBE_STATES)[number]

const text = z.string().max(500)

const probeReport = z.object({
  /** The settings' entry it belongs to; one source may carry several probes. */
  source: z.string().max(200),
  probe: z.string().max(200),
  state: z.enum(PROBE_STATES),
  /** One clear sentence: what is so, and what to do where something can be done. */
  sentence: text,
  /** Where it hangs: a port's path, a topic, a file. */
  where: text,
  lastAtMs: z.number().nullable(),
  lastRawC: z.number().nullable(),
  /** Readings and lines since the bridge started; `refused` are lines that were no reading. */
  readings: z.number(),
  refused: z.number(),
  /** Battery where the probe tells it, percent. */
  batteryPercent: z.number().nullable(),
})
export type ProbeReport = z.infer<typeof probeReport>

/** A port or topic seen while a person is looking for a probe. */
const candidate = z.object({
  kind: z.enum(['serial', 'mqtt', 'one-wire']),
  /** Path, topic or device number. */
  where: text,
  /** What it says about itself: maker, product, serial number. */
  about: text,
  usb: z
    .object({ vendorId: z.string(), productId: z.string().optional(), serialNumber: z.string().optional() })
    .nullable(),
  /** The last thing it said, as text, and the number in it where there is one. */
  lastText: text.nullable(),
  lastNumber: z.number().nullable(),
  lastAtMs: z.number().nullable(),
  /** The probe in the settings that already uses it. */
  usedBy: z.string().nullable(),
  /** Why it cannot be read, if so. */
  trouble: text.nullable(),
})
export type Candidate = z.infer<typeof candidate>

export const bridgeState = z.object({
  bridge: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/),
  boot: z.string().min(1).max(64),
  atMs: z.number(),
  probes: z.array(probeReport).max(1000),
  outbox: z.object({
    waiting: z.number(),
    oldestWaitingMs: z.number().nullable(),
    /** Records that the server would not take; kept in the bridge with the reason. */
    refused: z.number(),
    /** Set while the bridge cannot write to its disk: what a person should know and do. */
    trouble: text.nullable(),
  }),
  /** `null` unless a person is looking for a probe. */
  candidates: z.array(candidate).max(1000).nullable(),
})
export type BridgeState = z.infer<typeof bridgeState>

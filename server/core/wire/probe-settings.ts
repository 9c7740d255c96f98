import { z } from 'zod'
import type { ScriptedChange } from '../bath/pot-script.ts'
import { isValueField, parseTemplate } from '../measure/line-template.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'
import { nearestName } from './nearest-name.ts'
import { signal } from './signal-settings.ts'

/** Names go into SenML names (RFC 8428 §4.5.1) and addresses of pages, so they are kept simple. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/
export const probeName = z
  .string()
  .regex(NAME, 'allowed are letters, digits and - . _, at most 64, the first no sign')

const seconds = (low: number, high: number) => z.number().min(low).max(high)

/** What every probe may have. */
const common = {
  name: probeName,
  /** How it is called on the page; the name when left out. */
  title: z.string().min(1).max(80).optional(),
  /** Time constant of the probe in stirred water, seconds; learned when left out. */
  lagS: seconds(0, 600).optional(),
  /** Silence is told after this long, seconds; learned from the probe's own rhythm when left out. */
  silentAfterS: seconds(1, 3600).optional(),
  enabled: z.boolean().optional(),
  /** The bridge that it hangs on; the one beside the server when left out. */
  bridge: probeName.optional(),
}

const usb = z
  .strictObject({
    vendorId: z.string().regex(/^[0-9a-fA-F]{4}$/, 'allowed are four hexadecimal digits'),
    productId: z
      .string()
      .regex(/^[0-9a-fA-F]{4}$/, 'allowed are four hexadecimal digits')
      .optional(),
    serialNumber: z.string().min(1).max(128).optional(),
  })
  .readonly()
export type UsbIdentity = z.infer<typeof usb>

/** A serial port: by its path, or by what is plugged in. */
const port = {
  path: z.string().min(1).max(256).optional(),
  usb: usb.optional(),
  baud: z.number().int().min(50).max(4_000_000).default(9600),
  dataBits: z.union([z.literal(7), z.literal(8)]).optional(),
  parity: z.enum(['none', 'even', 'odd']).optional(),
  stopBits: z.union([z.literal(1), z.literal(2)]).optional(),
}

const template = z
  .string()
  .min(1)
  .max(256)
  .superRefine((text, context) => {
    const parsed = parseTemplate(text)
    if (!parsed.ok) context.addIssue({ code: 'custom', message: parsed.why })
  })

/** Several probes in one line: their names in the order of the value fields, or by the names that the line gives. */
const names = z
  .union([z.array(probeName).min(1).max(64).readonly(), z.record(z.string(), probeName).readonly()])
  .optional()

const serialLines = z.strictObject({
  ...common,
  kind: z.literal('serial-lines'),
  ...port,
  line: template,
  names,
  signal: signal.optional(),
  /** Sent once after opening; escapes \r \n \t and \xHH are understood. */
  wake: z.string().min(1).max(256).optional(),
  /** For devices that answer only when asked. */
  ask: z.strictObject({ query: z.string().min(1).max(256), everyS: seconds(0.1, 3600) }).optional(),
})

const serialSenml = z.strictObject({
  ...common,
  kind: z.literal('serial-senml'),
  ...port,
  wake: z.string().min(1).max(256).optional(),
})

const register = z.strictObject({
  /** The probe that this register is; the source's own name when left out. */
  name: probeName.optional(),
  station: z.number().int().min(1).max(247).default(1),
  function: z.union([z.literal(3), z.literal(4)]).default(3),
  /** As sent on the wire: counted from 0. */
  address: z.number().int().min(0).max(65_535),
  type: z.enum(['int16', 'uint16', 'int32', 'float32']).default('int16'),
  wordOrder: z.enum(['big', 'little']).default('big'),
  scale: z.number().default(1),
  offset: z.number().default(0),
  unit: z.enum(['C', 'F']).default('C'),
  signal: signal.optional(),
})
export type ModbusRegister = z.infer<typeof register>

const modbusRtu = z.strictObject({
  ...common,
  kind: z.literal('modbus-rtu'),
  ...port,
  registers: z.array(register).min(1).max(64),
  everyS: seconds(0.1, 3600).default(1),
  timeoutMs: z.number().int().min(20).max(10_000).default(500),
})

const mqtt = z.strictObject({
  ...common,
  kind: z.literal('mqtt'),
  url: z
    .string()
    .regex(/^(mqtts?|wss?|ssl|tls|tcp):\/\/.+/, 'allowed is an address like mqtt://127.0.0.1:1883'),
  topic: z.string().min(1).max(512).superRefine(checkTopicFilter),
  /** What a message holds. */
  payload: z
    .union([
      z.enum(['number', 'senml']),
      z.strictObject({ pointer: jsonPointer(), battery: jsonPointer().optional() }),
    ])
    .default('number'),
  unit: z.enum(['C', 'F']).default('C'),
  signal: signal.optional(),
  /** With `+` or `#` in the topic: which level of it is the probe's name, counted from 0; else the source's name. */
  nameLevel: z.number().int().min(0).max(64).optional(),
  /** A device's last will: on this topic this text means that it is gone. */
  gone: z
    .strictObject({
      topic: z.string().min(1).max(512).superRefine(checkTopicFilter),
      payload: z.string().max(256),
    })
    .optional(),
  user: z.string().max(256).optional(),
  password: z.string().max(256).optional(),
  /** File of a certificate authority's certificate, PEM. */
  caFile: z.string().min(1).max(1024).optional(),
  version: z.union([z.literal(4), z.literal(5)]).default(4),
})

function checkTopicFilter(topic: string, context: z.RefinementCtx): void {
  const levels = topic.split('/')
  const wrong = levels.some(
    (level, i) =>
      (level.includes('#') && (level !== '#' || i < levels.length - 1)) ||
      (level.includes('+') && level !== '+'),
  )
  if (wrong || topic.includes('\u0000')) {
    context.addIssue({
      code: 'custom',
      message: 'allowed is + as a whole level and # as the whole last level (MQTT §4.7)',
    })
  }
}

function jsonPointer() {
  return z
    .string()
    .max(256)
    .regex(/^(\/([^~/]|~0|~1)*)*$/, 'allowed is a JSON Pointer like /ds/temp (RFC 6901)')
}

const oneWireFiles = z.strictObject({
  ...common,
  kind: z.literal('one-wire-files'),
  folder: z.string().min(1).max(1024).default('/sys/bus/w1/devices'),
  /** Probe's name by the device's number (`28-0316a2794bff`); with none, every device is a probe by its number. */
  devices: z.record(z.string().regex(/^[0-9a-f]{2}-[0-9a-f]{12}$/), probeName).optional(),
  everyS: seconds(0.5, 3600).default(1),
})

const recorded = z.strictObject({
  ...common,
  kind: z.literal('recorded'),
  /** A trace file (CSV). */
  file: z.string().min(1).max(1024),
  speed: z.number().min(0.1).max(10_000).default(1),
  repeat: z.boolean().default(false),
})

const scripted: z.ZodType<ScriptedChange> = z.strictObject({
  /** Seconds from the start; what lies before it has been lived through when the pot is first read. */
  atS: z.number().min(-1e7).max(1e7),
  dial: z.number().min(0).exactOptional(),
  lid: z.enum(['on', 'off']).exactOptional(),
  goodsIn: z
    .strictObject({ dryKg: z.number().positive(), waterKg: z.number().min(0).default(0), tempC: z.number() })
    .exactOptional(),
  goodsOut: z
    .strictObject({ dryKg: z.number().positive(), waterKg: z.number().min(0).default(0) })
    .exactOptional(),
  topUp: z.strictObject({ litres: z.number().positive(), tempC: z.number() }).exactOptional(),
  probe: z.enum(['in', 'out', 'unplugged']).exactOptional(),
})

const vessel = z.strictObject({
  title: z.string().optional(),
  litres: z.number().positive().max(1000),
  diameterCm: z.number().positive().optional(),
  emptyKg: z.number().positive().optional(),
  material: z.string().optional(),
  surroundingsC: z.number().min(-20).max(60).optional(),
  altitudeM: z.number().min(-500).max(6000).optional(),
  burner: z.strictObject({
    kind: z.enum(['coil', 'plate', 'gas', 'induction']).optional(),
    dialMax: z.number().positive(),
    ratedW: z.number().positive().optional(),
  }),
})

const simulated = z.strictObject({
  ...common,
  kind: z.literal('simulated'),
  vessel,
  startC: z.number().min(0).max(100).default(20),
  dial: z.number().min(0).default(0),
  lid: z.enum(['on', 'off']).default('on'),
  script: z.array(scripted).max(1000).default([]),
  /** A file that says how dial and lid stand now (`{"dial":3,"lid":"on"}`), for a pot that obeys somebody. */
  knobs: z.string().min(1).max(1024).optional(),
  /** Share of full power, 0…1, at equal steps of the dial: no two burners are alike. */
  dialCurve: z.array(z.number().min(0).max(1)).min(2).max(101).optional(),
  lossFactor: z.number().min(0.1).max(10).default(1),
  /** Standard deviation of the probe's noise, °C. */
  noiseC: z.number().min(0).max(5).default(0.03),
  seed: z.number().int().default(1),
  periodS: seconds(0.1, 600).default(1),
  /** How much faster than true time the pot lives. */
  speed: z.number().min(0.1).max(1000).default(1),
})

const KINDS = {
  'serial-lines': serialLines,
  'serial-senml': serialSenml,
  'modbus-rtu': modbusRtu,
  mqtt,
  'one-wire-files': oneWireFiles,
  recorded,
  simulated,
} as const

export const probeSettings = z.discriminatedUnion('kind', [
  serialLines,
  serialSenml,
  modbusRtu,
  mqtt,
  oneWireFiles,
  recorded,
  simulated,
])
/** One entry of `probes` in the settings, defaults filled in. */
export type ProbeSettings = z.infer<typeof probeSettings>
export type ProbeKind = ProbeSettings['kind']
export type SettingsOf<K extends ProbeKind> = Extract<ProbeSettings, { kind: K }>
export const PROBE_KINDS = Object.keys(KINDS) as readonly ProbeKind[]

export type DecodedProbes =
  | { readonly ok: true; readonly probes: readonly ProbeSettings[] }
  | { readonly ok: false; readonly why: string }

/** The `probes` of the settings file, or the first thing wrong with them in one sentence. */
export function decodeProbes(input: unknown): DecodedProbes {
  if (!Array.isArray(input))
    return { ok: false, why: `probes is ${typeof input}; allowed is a list of probes` }
  const probes: ProbeSettings[] = []
  for (const [i, one] of input.entries()) {
    const decoded = decodeProbe(one, placeOf(one, i))
    if (typeof decoded === 'string') return { ok: false, why: decoded }
    probes.push(decoded)
  }
  const twice = probes.find((p, i) => probes.findIndex((q) => q.name === p.name) !== i)
  if (twice !== undefined) {
    return { ok: false, why: `probe "${twice.name}": the name is given twice; each probe needs its own` }
  }
  return { ok: true, probes }
}

function placeOf(one: unknown, index: number): string {
  const name = (one as { name?: unknown } | null)?.name
  return typeof name === 'string' && name !== '' ? `probe "${name.slice(0, 64)}"` : `probe ${index + 1}`
}

/** One probe's settings, or what is wrong with them in one sentence that begins with `where`. */
export function decodeProbe(input: unknown, where = 'probe'): ProbeSettings | string {
  const kind = (input as { kind?: unknown } | null)?.kind
  if (typeof kind !== 'string' || !Object.hasOwn(KINDS, kind)) return `${where}: ${kindProblem(kind)}`
  const schema = KINDS[kind as ProbeKind]
  const parsed = schema.safeParse(input)
  if (!parsed.success) {
    return `${where}: ${explainIssue(parsed.error.issues[0]!, input, (path) => knownFields(schema, path))}`
  }
  const problem = portProblem(parsed.data) ?? namesProblem(parsed.data)
  return problem === null ? parsed.data : `${where}: ${problem}`
}

function kindProblem(kind: unknown): string {
  const allowed = PROBE_KINDS.join(', ')
  if (typeof kind !== 'string') return `kind is missing; allowed is ${allowed}`
  return `kind is ${JSON.stringify(kind.slice(0, 60))}; the nearest known one is "${nearestName(kind, PROBE_KINDS)}", allowed is ${allowed}`
}

function portProblem(p: ProbeSettings): string | null {
  if (!('baud' in p)) return null
  if (p.path === undefined && p.usb === undefined) {
    return 'neither path nor usb is given; one of the two says which port it is'
  }
  return p.path !== undefined && p.usb !== undefined
    ? 'path and usb are both given; allowed is one of the two'
    : null
}

/** Every value of a line needs a probe to belong to. */
function namesProblem(p: ProbeSettings): string | null {
  if (p.kind === 'modbus-rtu') return registerNamesProblem(p)
  if (p.kind !== 'serial-lines') return null
  const parsed = parseTemplate(p.line)
  if (!parsed.ok) return null
  const fields = parsed.template.parts.flatMap((part) => (part.kind === 'field' ? [part.field] : []))
  const values = fields.filter(isValueField).length
  if (fields.includes('raw') && p.signal === undefined) {
    return 'line has {raw} and signal is missing; signal says what the number is'
  }
  if (fields.includes('name') || values === 1) return null
  const given = Array.isArray(p.names) ? p.names.length : 0
  return given === values
    ? null
    : `names holds ${given} for the ${values} values in line; allowed is one name a value`
}

function registerNamesProblem(p: SettingsOf<'modbus-rtu'>): string | null {
  const given = p.registers.map((r) => r.name ?? p.name)
  const twice = given.find((name, i) => given.indexOf(name) !== i)
  return twice === undefined ? null : `registers: the name "${twice}" is given twice; each needs its own`
}

import { z } from 'zod'
import { isValueField, parseTemplate } from '../measure/line-template.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'
import { nearestName } from './nearest-name.ts'
import { modbusRtu } from './probe-kinds/modbus-rtu.ts'
import { mqtt } from './probe-kinds/mqtt.ts'
import { oneWireFiles } from './probe-kinds/one-wire-files.ts'
import { recorded } from './probe-kinds/recorded.ts'
import { serialLines } from './probe-kinds/serial-lines.ts'
import { serialSenml } from './probe-kinds/serial-senml.ts'
import { simulated } from './probe-kinds/simulated.ts'

const KINDS = {
  'serial-lines': serialLines,
  'serial-senml': serialSenml,
  'modbus-rtu': modbusRtu,
  mqtt,
  'one-wire-files': oneWireFiles,
  recorded,
  simulated,
} as const

const probeSettings = z.discriminatedUnion('kind', [
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

import type { z } from 'zod'
import { foundText } from '../measure/possible.ts'
import type { ProbeFault, Sample, Serial } from '../measure/reading.ts'
import { sampleOf } from '../measure/sample-of.ts'
import { type SenmlName, nameReader } from './senml-name.ts'
import { isPlainRecord } from './senml-plain.ts'
import { type SenmlRecord, senmlRecord } from './senml-record.ts'

/** Media type of a SenML pack in JSON, RFC 8428 §12.3.1. */
export const SENML_JSON = 'application/senml+json'

/** One record that was taken in. */
export interface AcceptedRecord {
  readonly index: number
  readonly sample: Sample
  /** The sender, from a name `<bridge>/<probe>`; `null` for a device's own `urn:…`. */
  readonly bridge: string | null
  readonly serial: Serial | null
  /** The time the device itself gave, Unix ms, when it was not used as it stood; else `null`. */
  readonly deviceMs: number | null
}

export interface RefusedRecord {
  readonly index: number
  readonly why: string
}

/** RFC 8428 §4.5.3: below this many seconds a time is relative to now. */
const RELATIVE_BELOW_S = 2 ** 28

/** The highest version of RFC 8428 that we know (§4.4). */
const SENML_VERSION = 10

/** A device may be this far ahead before its clock is taken to be wrong, ms. */
const AHEAD_MS = 5000

/** Clocks that were never set run from 1970 or from 2000; nothing before 2001 is a true time, Unix ms. */
export const CLOCK_NEVER_SET_MS = 978_307_200_000

/** The first and the last moment that a date can name lie this far from 1970, ms (ECMA-262, time values). */
const LAST_MS = 8.64e15

interface Base {
  readonly bn: string
  readonly bt: number
  readonly bu: string | undefined
  readonly bv: number
}

/**
 * Reads a SenML pack (RFC 8428, JSON). Each record stands alone: a bad one is refused with its reason and
 * never blocks the others. `arrivalMs` is the time of a record without one, and the "now" of relative times.
 */
export function decodeSenml(
  body: unknown,
  arrivalMs: number,
): { readonly accepted: readonly AcceptedRecord[]; readonly refused: readonly RefusedRecord[] } {
  if (!Array.isArray(body)) return { accepted: [], refused: [{ index: 0, why: NOT_A_PACK }] }
  let base = NO_BASE
  const nameOf = nameReader()
  const accepted: AcceptedRecord[] = []
  const refused: RefusedRecord[] = []
  for (const [index, raw] of (body as readonly unknown[]).entries()) {
    const parsed = isPlainRecord(raw) ? { success: true as const, data: raw } : senmlRecord.safeParse(raw)
    if (!parsed.success) {
      refused.push({ index, why: shapeProblem(raw, parsed.error) })
      continue
    }
    base = baseAfter(base, parsed.data)
    if (isBaseOnly(parsed.data)) continue
    const one = resolve(parsed.data, base, nameOf(base.bn, parsed.data.n), index, arrivalMs)
    if ('why' in one) refused.push(one)
    else accepted.push(one)
  }
  return { accepted: withTrustedTimes(accepted, arrivalMs), refused }
}

const NOT_A_PACK = 'a SenML pack is an array of records, RFC 8428'

function shapeProblem(raw: unknown, error: z.ZodError): string {
  if (typeof raw !== 'object' || raw === null) return 'a SenML record is an object'
  const field = String(error.issues[0]?.path[0] ?? '')
  const found = foundText(JSON.stringify((raw as Record<string, unknown>)[field]) ?? 'nothing')
  return `field "${field}": found ${found}, which SenML does not allow there`
}

const NO_BASE: Base = { bn: '', bt: 0, bu: undefined, bv: 0 }

function baseAfter(base: Base, r: SenmlRecord): Base {
  if (!hasBase(r)) return base
  return { bn: r.bn ?? base.bn, bt: r.bt ?? base.bt, bu: r.bu ?? base.bu, bv: r.bv ?? base.bv }
}

const isBaseOnly = (r: SenmlRecord): boolean =>
  r.v === undefined && r.vs === undefined && r.n === undefined && r.t === undefined && hasBase(r)

const hasBase = (r: SenmlRecord): boolean =>
  r.bn !== undefined || r.bt !== undefined || r.bu !== undefined || r.bv !== undefined || r.bver !== undefined

function resolve(
  r: SenmlRecord,
  base: Base,
  name: SenmlName | null,
  index: number,
  arrivalMs: number,
): AcceptedRecord | RefusedRecord {
  const why = recordProblem(r, base, name)
  if (why !== null || name === null) return { index, why: why ?? wrongName(base, r) }
  const { bridge, probe } = name
  const atMs = absoluteMs(base.bt + (r.t ?? 0), arrivalMs)
  if (Math.abs(atMs) > LAST_MS) return { index, why: `time ${base.bt + (r.t ?? 0)} s is no date` }
  const sample = r.v === undefined ? faultSample(probe, atMs, r.vs!) : sampleOf(probe, atMs, base.bv + r.v)
  const serial = r.boot === undefined || r.seq === undefined ? null : { boot: r.boot, seq: r.seq }
  return { index, sample, bridge, serial, deviceMs: null }
}

function recordProblem(r: SenmlRecord, base: Base, name: SenmlName | null): string | null {
  const mustKnow = fieldToKnow(r)
  if (mustKnow !== null) return `field "${mustKnow}" must be understood (RFC 8428 §4.4) and is not`
  if (r.bver !== undefined && r.bver > SENML_VERSION) {
    return `version ${r.bver} of SenML is newer than ${SENML_VERSION}, the highest known here`
  }
  if (name === null) return wrongName(base, r)
  const unit = r.u ?? base.bu
  if (r.v !== undefined && unit !== 'Cel') {
    return `unit ${unit === undefined ? 'is missing' : `"${foundText(unit)}"`}; the only one taken is "Cel"`
  }
  return r.v === undefined && r.vs === undefined ? 'neither a value "v" nor a fault "vs"' : null
}

const wrongName = ({ bn }: Base, { n = '' }: SenmlRecord): string =>
  `name "${foundText(bn + n)}" is neither urn:… nor <bridge>/<probe> (letters, digits and - : . / _)`

function fieldToKnow(r: SenmlRecord): string | null {
  for (const key in r) if (key.endsWith('_')) return key
  return null
}

const absoluteMs = (timeS: number, arrivalMs: number): number =>
  timeS < RELATIVE_BELOW_S ? Math.round(arrivalMs + timeS * 1000) : Math.round(timeS * 1000)

const FAULTS: readonly ProbeFault[] = ['not-connected', 'error-code', 'impossible']

function faultSample(probe: string, atMs: number, text: string): Sample {
  const fault = FAULTS.find((f) => text === f || text.startsWith(`${f}: `))
  const found = fault === undefined ? text : text.slice(fault.length + 2)
  return { kind: 'fault', probe, atMs, fault: fault ?? 'error-code', found: foundText(found) }
}

/**
 * A sender whose newest reading lies ahead of now, or before any possible one, has a wrong clock: its whole pack
 * is moved so that the newest arrives now. Distances and order stay; what the device said is kept as `deviceMs`.
 */
function withTrustedTimes(accepted: readonly AcceptedRecord[], arrivalMs: number): readonly AcceptedRecord[] {
  let newestMs = -Infinity
  let oldestMs = Infinity
  for (const { sample } of accepted) {
    newestMs = Math.max(newestMs, sample.atMs)
    oldestMs = Math.min(oldestMs, sample.atMs)
  }
  const isWrong = newestMs > arrivalMs + AHEAD_MS || oldestMs < CLOCK_NEVER_SET_MS
  if (accepted.length === 0 || !isWrong) return accepted
  return accepted.map((a) => ({
    ...a,
    sample: { ...a.sample, atMs: a.sample.atMs + (arrivalMs - newestMs) },
    deviceMs: a.sample.atMs,
  }))
}

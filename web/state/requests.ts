import type { TracePoint } from './trace-points.ts'

/** What the server answered: the value, or one sentence for the person. `status` 0: no answer at all. */
export type Asked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: string; readonly status: number }

/** One probe as the probes page shows it. Times Unix ms, temperatures °C. */
export interface ProbeInfo {
  readonly name: string
  readonly title: string
  readonly tempC: number | null
  readonly atMs: number | null
  readonly ageMs: number | null
  /** Where it hangs: a port, a topic, a folder. */
  readonly place: string | null
  /** As its bridge tells: `ok`, `silent`, `trouble`, `waiting`; `null` where no bridge does. */
  readonly state: string | null
  readonly sentence: string | null
  /** `false`: it turned up by itself and nobody has said yet that it belongs here. */
  readonly accepted: boolean
  readonly potId: string | null
  readonly rateCPerMin: number | null
  readonly noiseC: number | null
  readonly periodMs: number | null
  readonly battery01: number | null
  readonly lagS: number | null
  readonly correction: {
    readonly kind: 'offset' | 'two-point' | 'line'
    /** What an offset adds; `null` for the other kinds. */
    readonly offsetC: number | null
    readonly fromMs: number
  } | null
}

type Method = 'GET' | 'POST' | 'PUT' | 'DELETE'

export interface ServerRequests {
  ask<T>(method: Method, path: string, body?: unknown): Promise<Asked<T>>
}

/**
 * @param fetchFrom the browser's `fetch`, handed in so that a test needs no network.
 * @param locked told when the server asks for its passphrase first.
 * @param said a sentence of the server → the same in this person's language.
 */
export function serverRequests(
  fetchFrom: (path: string, init: RequestInit) => Promise<Response>,
  locked: () => void,
  said: (sentence: string) => string = (sentence) => sentence,
): ServerRequests {
  return {
    ask: async <T>(method: Method, path: string, body?: unknown): Promise<Asked<T>> => {
      try {
        const answer = await fetchFrom(path, {
          method,
          headers: {
            accept: 'application/json',
            ...(body === undefined
              ? {}
              : { 'content-type': isPicture(body) ? body.type : 'application/json' }),
          },
          ...(body === undefined ? {} : { body: isPicture(body) ? body : JSON.stringify(body) }),
        })
        if (answer.status === 401 && path !== LOG_IN_PATH) locked()
        const read = await readAnswer<T>(answer)
        return read.ok ? read : { ...read, why: said(read.why) }
      } catch {
        return { ok: false, why: said('the server can’t be reached'), status: 0 }
      }
    },
  }
}

/** A photo goes as it is; everything else as JSON. */
const isPicture = (body: unknown): body is Blob => body instanceof Blob

export const LOG_IN_PATH = '/api/log-in'

async function readAnswer<T>(answer: Response): Promise<Asked<T>> {
  const text = await answer.text()
  const value: unknown = text === '' ? null : JSON.parse(text)
  // The types of the answers are agreed with the server; tests run against the real one.
  if (answer.ok) return { ok: true, value: value as T }
  return problemOf(value, answer.status)
}

/** Problem details (RFC 9457) → the sentence in them. */
function problemOf(value: unknown, status: number): Asked<never> {
  const problem = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>
  const said = [problem['detail'], problem['title']].find((t) => typeof t === 'string' && t !== '')
  return { ok: false, why: typeof said === 'string' ? said : `the server answered ${status}`, status }
}

export interface TraceAnswer {
  readonly points: readonly TracePoint[]
}

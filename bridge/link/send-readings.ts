import { readingsAnswer } from '#core/wire/bridge-link'
import { SENML_JSON } from '#core/wire/senml'
import { encodeSenml } from '#core/wire/senml-encode'
import type { SendResult } from './hand-over.ts'
import type { OutboxRow } from './outbox-rows.ts'
import type { Answer, ServerWay } from './server-way.ts'

/** Hands one batch to the server; `offsetOf` sets the times of a boot right whose clock was off. */
export async function sendReadings(
  way: ServerWay,
  bridge: string,
  rows: readonly OutboxRow[],
  offsetOf: (boot: string) => number,
): Promise<SendResult> {
  const set = rows.map(({ sample, serial }) => ({
    sample: { ...sample, atMs: sample.atMs + offsetOf(serial.boot) },
    serial,
  }))
  const answer = await way.ask({
    method: 'POST',
    path: '/api/readings',
    headers: { 'content-type': SENML_JSON },
    body: JSON.stringify(encodeSenml(bridge, set)),
  })
  return resultOf(answer)
}

function resultOf(answer: Answer): SendResult {
  if (!answer.ok) return { kind: 'later', sentence: answer.sentence, afterMs: null }
  if (answer.status >= 200 && answer.status < 300) return takenOf(answer.body)
  const why = reasonOf(answer)
  if ([400, 413, 415, 422].includes(answer.status)) return { kind: 'unreadable', why }
  return { kind: 'later', sentence: troubleText(answer.status, why), afterMs: retryAfterMs(answer) }
}

/** A good status whose text can't be read is no receipt: the batch is sent again, which is harmless. */
function takenOf(body: string): SendResult {
  const parsed = readingsAnswer.safeParse(parseJson(body))
  if (!parsed.success) {
    return {
      kind: 'later',
      sentence: 'the server gave an answer that is no receipt; are both of one version?',
      afterMs: null,
    }
  }
  return { kind: 'taken', refused: new Map(parsed.data.refused.map((r) => [r.index, r.why])) }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return null
  }
}

/** The `detail` or `title` of a problem (RFC 9457), else the number. */
function reasonOf(answer: Extract<Answer, { ok: true }>): string {
  const problem = parseJson(answer.body) as { detail?: unknown; title?: unknown } | null
  const text = problem?.detail ?? problem?.title
  return typeof text === 'string' ? text.slice(0, 300) : `status ${answer.status}`
}

const troubleText = (status: number, why: string): string =>
  status === 401 || status === 403
    ? `the server does not accept this bridge (${why}); give it the bridge's key with --key`
    : `the server can't take readings now (${why}); they wait in the outbox`

function retryAfterMs(answer: Extract<Answer, { ok: true }>): number | null {
  const seconds = Number(answer.headers['retry-after'])
  return Number.isFinite(seconds) && seconds > 0 ? Math.min(seconds, 60) * 1000 : null
}

import type { Clock } from '#core/measure/clock'

/** A POST that was answered with a status, or was not answered and why. A redirect is an answer like any other. */
export type PostResult =
  | { readonly kind: 'answered'; readonly status: number }
  | { readonly kind: 'no-answer'; readonly why: string }

export interface PostRequest {
  readonly url: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string | Uint8Array
  /** Breaks it off. */
  readonly signal?: AbortSignal
}

/** Sends one request and never rejects. */
export type Post = (request: PostRequest) => Promise<PostResult>

/** How long another computer may take to answer; long enough for a slow line, short beside an alarm's minute. */
const TIMEOUT_MS = 10_000

/** A POST that gives up after ten seconds, follows no redirect and reads no answer but its status. */
export function httpPost(clock: Clock, timeoutMs = TIMEOUT_MS): Post {
  return async ({ url, headers, body, signal: given }) => {
    const tooLate = new AbortController()
    const cancel = clock.after(timeoutMs, () => tooLate.abort())
    const signal = AbortSignal.any([tooLate.signal, ...(given === undefined ? [] : [given])])
    try {
      // A copy of its own: bytes that others might change or share are not for `fetch`.
      const sent = typeof body === 'string' ? body : new Uint8Array(body)
      const init = { method: 'POST', headers, body: sent, redirect: 'manual', signal } as const
      const answer = await fetch(url, init)
      await answer.body?.cancel()
      return { kind: 'answered', status: answer.status }
    } catch (error) {
      const why = tooLate.signal.aborted ? `no answer within ${timeoutMs / 1000} s` : causeOf(error)
      return { kind: 'no-answer', why }
    } finally {
      cancel()
    }
  }
}

/** The reason beneath: `fetch` itself says no more than that it failed. */
function causeOf(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error
  if (!(cause instanceof Error)) return String(cause)
  const code = (cause as NodeJS.ErrnoException).code
  return cause.message === '' && code !== undefined ? code : cause.message
}

import type { ErrorRequestHandler, Response } from 'express'

/** A refusal as it goes out: problem details after RFC 9457. `detail` is one sentence for a person. */
export class Problem extends Error {
  override readonly name = 'Problem'
  readonly status: number
  readonly more: Readonly<Record<string, unknown>>

  constructor(status: number, detail: string, more: Readonly<Record<string, unknown>> = {}) {
    super(detail)
    this.status = status
    this.more = more
  }
}

export const notFound = (what: string): Problem => new Problem(404, `there is no ${what}`)

const TITLES: Readonly<Record<number, string>> = {
  400: 'Not understood',
  401: 'Log in first',
  403: 'Not allowed',
  404: 'Not found',
  405: 'Not allowed here',
  409: 'Not possible now',
  413: 'Too large',
  415: 'Wrong media type',
  421: 'Not this server',
  426: 'Websocket only',
  429: 'Too often',
  500: 'The program failed',
  503: 'Not recording',
}

function sendProblem(response: Response, problem: Problem): void {
  const { status, message, more } = problem
  const body = { type: 'about:blank', title: TITLES[status] ?? 'Refused', status, detail: message, ...more }
  // RFC 9110 §15.5.2: a 401 says how one may show oneself. `Bearer` opens no window of the browser's.
  if (status === 401) response.set('WWW-Authenticate', 'Bearer')
  response.status(status).type('application/problem+json').send(JSON.stringify(body))
}

/** The last handler: what a person can mend is said, what is ours is logged and hidden behind a number. */
export function answerErrors(logFailure: (error: unknown, id: string) => void): ErrorRequestHandler {
  return (error: unknown, _request, response, next) => {
    if (response.headersSent) return next(error)
    const problem = problemOf(error)
    if (problem !== null) return sendProblem(response, problem)
    const id = crypto.randomUUID()
    logFailure(error, id)
    return sendProblem(response, new Problem(500, `this did not work; the log says why under ${id}`, { id }))
  }
}

/** Our own problems, and what the body parser found wrong with a body. */
function problemOf(error: unknown): Problem | null {
  if (error instanceof Problem) return error
  if (!(error instanceof Error) || !('status' in error) || !('type' in error)) return null
  const limit = 'limit' in error ? Number(error.limit) : 0
  switch (error.type) {
    case 'entity.too.large':
      return new Problem(
        413,
        `the body is larger than ${Math.round(limit / 1024)} kB, which is allowed at most`,
      )
    case 'entity.parse.failed':
      return new Problem(400, `the body is not JSON: ${error.message}`)
    default:
      return Number(error.status) < 500 ? new Problem(Number(error.status), error.message) : null
  }
}

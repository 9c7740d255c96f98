import type { Express, Request, RequestHandler, Response } from 'express'
import type { z } from 'zod'
import { explainIssue } from '#core/wire/explain-issue'
import { knownFields } from '#core/wire/known-fields'
import { entryOf } from '../guard/guard-http.ts'
import type { Endpoint } from './endpoint.ts'
import { NOT_CHANGED } from './not-changed.ts'
import { Problem } from './problem.ts'
import { Page } from './page-answer.ts'

/** A schema's answer for nothing to check. */
const NOTHING = {}

/** Makes every endpoint a route; whatever doesn't fit its schema is refused with one sentence. */
export function mount(app: Express, endpoints: readonly Endpoint[]): void {
  for (const endpoint of endpoints) app[endpoint.method](endpoint.path, handlerOf(endpoint))
  for (const [path, methods] of methodsByPath(endpoints))
    app.all(path, (_request, response) => {
      const allowed = methods.join(', ').toUpperCase()
      // RFC 9110 §15.5.6: a 405 says in `Allow` what it takes.
      response.set('Allow', allowed)
      throw new Problem(405, `this address takes ${allowed}`)
    })
}

function handlerOf(endpoint: Endpoint): RequestHandler {
  return async (request, response) => {
    const answer = await endpoint.handle({
      params: check(endpoint.params, request.params, 'address'),
      query: check(endpoint.query, request.query, 'query'),
      body: check(endpoint.body, bodyOf(request), 'body'),
      entry: entryOf(response) ?? 'here',
      from: request.socket.remoteAddress ?? '',
      header: (name) => request.get(name),
      answerHeader: (name, value) => void response.set(name, value),
    })
    send(response, endpoint.status ?? 200, answer)
  }
}

/** A request without a body is one with an empty object, so that an act needs none. */
const bodyOf = (request: Request): unknown => (request.body as unknown) ?? {}

function check(schema: z.ZodType | undefined, input: unknown, where: string): unknown {
  if (schema === undefined) return NOTHING
  const parsed = schema.safeParse(input)
  if (parsed.success) return parsed.data
  // A misspelt field is also a missing one: the misspelling is what helps.
  const { issues } = parsed.error
  const issue = issues.find(({ code }) => code === 'unrecognized_keys') ?? issues[0]!
  const path = issue.path.map(String).join('.')
  const why = explainIssue(issue, input, (at) => knownFields(schema, at)).replace(/^the file/, `the ${where}`)
  throw new Problem(400, why, { errors: [{ path, why }] })
}

function send(response: Response, status: number, answer: unknown): void {
  if (!response.hasHeader('Cache-Control')) response.set('Cache-Control', 'no-store')
  if (answer === NOT_CHANGED) response.status(304).end()
  else if (answer instanceof Page) answer.send(response.status(status))
  else response.status(status).json(answer)
}

function methodsByPath(endpoints: readonly Endpoint[]): ReadonlyMap<string, readonly string[]> {
  const byPath = new Map<string, string[]>()
  for (const { path, method } of endpoints) byPath.set(path, [...(byPath.get(path) ?? []), method])
  return byPath
}

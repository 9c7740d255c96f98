import { json, type RequestHandler } from 'express'
import { SENML_JSON } from '#core/wire/senml'
import { Problem } from './problem.ts'

const READINGS = '/api/readings'

/** Backlogs come in large packs; everything else is written by a person. */
const READINGS_LIMIT = '1mb'
const BODY_LIMIT = '100kb'

/**
 * Bodies are JSON and say so. A form or plain text is what another site's page can send without asking, so it
 * is refused before it is read. Readings come as SenML.
 */
export function readBodies(): readonly RequestHandler[] {
  const readings = json({ type: [SENML_JSON, 'application/json'], limit: READINGS_LIMIT, strict: false })
  const others = json({ type: 'application/json', limit: BODY_LIMIT, strict: false })
  return [
    refuseOtherTypes,
    (request, response, next) => (request.path === READINGS ? readings : others)(request, response, next),
  ]
}

const refuseOtherTypes: RequestHandler = (request, _response, next) => {
  const hasBody =
    request.headers['transfer-encoding'] !== undefined || Number(request.get('content-length') ?? 0) > 0
  const allowed = request.path === READINGS ? [SENML_JSON, 'application/json'] : ['application/json']
  if (hasBody && request.is(allowed) === false)
    throw new Problem(
      415,
      `the body must be ${allowed[0]} and say so in Content-Type, found ${found(request.get('content-type'))}`,
    )
  next()
}

const found = (type: string | undefined): string =>
  type === undefined ? 'none' : JSON.stringify(type.slice(0, 80))

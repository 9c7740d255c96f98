import { json, raw, type RequestHandler } from 'express'
import { SENML_JSON } from '#core/wire/senml'
import { PHOTO_TYPES } from '../../store/photos.ts'
import { Problem } from './problem.ts'

const READINGS = '/api/readings'
const PHOTOS = '/api/photos'
export const TRACE_IMPORT = '/api/trace-import'

/** Backlogs come in large packs; everything else is written by a person. */
const READINGS_LIMIT = '1mb'
const BODY_LIMIT = '100kb'
/** A photo from a phone, made smaller by the page. */
const PHOTO_LIMIT = '6mb'
/** A night at a reading a second is 2 MB of text. */
const TRACE_LIMIT = '20mb'

/**
 * Bodies are JSON and say so. A form or plain text is what another site's page can send without asking, so it
 * is refused before it is read. Readings come as SenML, which small boards call plain JSON; photos as pictures.
 */
export function readBodies(): readonly RequestHandler[] {
  const readings = json({ type: [SENML_JSON, 'application/json'], limit: READINGS_LIMIT, strict: false })
  const others = json({ type: 'application/json', limit: BODY_LIMIT, strict: false })
  const photos = raw({ type: [...PHOTO_TYPES], limit: PHOTO_LIMIT })
  const traces = json({ type: 'application/json', limit: TRACE_LIMIT })
  const readers: Readonly<Record<string, RequestHandler>> = {
    [READINGS]: readings,
    [PHOTOS]: photos,
    [TRACE_IMPORT]: traces,
  }
  return [
    refuseOtherTypes,
    (request, response, next) => (readers[request.path] ?? others)(request, response, next),
  ]
}

const ALLOWED: Readonly<Record<string, string[]>> = {
  [READINGS]: [SENML_JSON, 'application/json'],
  [PHOTOS]: [...PHOTO_TYPES],
}

const refuseOtherTypes: RequestHandler = (request, _response, next) => {
  const hasBody =
    request.headers['transfer-encoding'] !== undefined || Number(request.get('content-length') ?? 0) > 0
  const allowed = ALLOWED[request.path] ?? ['application/json']
  if (hasBody && request.is(allowed) === false)
    throw new Problem(
      415,
      `the body must be ${allowed[0]} and say so in Content-Type, found ${found(request.get('content-type'))}`,
    )
  next()
}

const found = (type: string | undefined): string =>
  type === undefined ? 'none' : JSON.stringify(type.slice(0, 80))

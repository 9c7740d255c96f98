import type { NextFunction, Request, RequestHandler, Response } from 'express'
import type { Clock } from '#core/measure/clock'
import { Problem } from '../http/problem.ts'
import type { Access, Entry } from './access.ts'
import { type OwnNames, refuseStranger } from './stranger.ts'

/** What the page may load: nothing but its own files, and nobody may frame it. */
const POLICY = [
  "default-src 'self'",
  "img-src 'self' data: blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

/** First of all handlers: headers that every answer has, and the refusal of strangers. */
export function guardHttp(own: () => OwnNames): RequestHandler {
  return (request, response, next) => {
    response.set({
      'Content-Security-Policy': POLICY,
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
      'X-Frame-Options': 'DENY',
      'Cross-Origin-Resource-Policy': 'same-origin',
      'Cross-Origin-Opener-Policy': 'same-origin',
    })
    const refusal = refuseStranger(request, own(), false)
    if (refusal !== null) throw new Problem(refusal.status, refusal.why)
    next()
  }
}

/** Open to everybody who is no stranger: what a supervisor asks, and the way to log in. */
const OPEN_PATHS = new Set(['/log-in', '/openapi.json'])

/** Before every `/api` route. */
export function guardApi(access: Access, clock: Clock): RequestHandler {
  return (request: Request, response: Response, next: NextFunction) => {
    const entry = access.entryOf(request, clock.nowMs())
    if (entry === null && !OPEN_PATHS.has(request.path)) throw new Problem(401, howToEnter(access))
    response.locals['entry'] = entry
    next()
  }
}

const howToEnter = (access: Access): string =>
  access.asksForPassphrase
    ? 'log in with the passphrase, or show a key (Authorization: Bearer …)'
    : 'from another computer a key must be shown (Authorization: Bearer …)'

export const entryOf = (response: Response): Entry | null =>
  (response.locals['entry'] as Entry | null | undefined) ?? null

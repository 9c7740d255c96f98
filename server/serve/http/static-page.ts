import express, { type RequestHandler } from 'express'
import { existsSync } from 'node:fs'
import { join } from 'node:path'

const YEAR_MS = 365 * 24 * 3_600_000

/**
 * The page as it was built. Files with a hash in their name never change, so browsers keep them; the rest is asked for
 * again each time. Addresses of views (`/batches/7`) lead to the page as well.
 */
export function staticPage(folder: string): readonly RequestHandler[] {
  const assets = express.static(join(folder, 'assets'), {
    immutable: true,
    maxAge: YEAR_MS,
    fallthrough: false,
  })
  const others = express.static(folder, {
    setHeaders: (response) => response.set('Cache-Control', 'no-cache'),
  })
  return [
    (request, response, next) => {
      if (!request.path.startsWith('/assets/')) return next()
      request.url = request.url.slice('/assets'.length)
      return assets(request, response, next)
    },
    others,
    (request, response, next) => {
      const isView =
        request.method === 'GET' && !request.path.startsWith('/api') && request.accepts('html') !== false
      const index = join(folder, 'index.html')
      if (!isView || /\.\w+$/.test(request.path) || !existsSync(index)) return next()
      return response.set('Cache-Control', 'no-cache').sendFile(index)
    },
  ]
}

import express, { type RequestHandler } from 'express'
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { packedAssets } from './packed-assets.ts'

/**
 * The page as it was built. Its assets are kept by browsers; the rest is asked for again each time. Addresses of views (`/batches/7`) lead to the page as well.
 */
export function staticPage(folder: string): readonly RequestHandler[] {
  const assets = packedAssets(join(folder, 'assets'))
  const others = express.static(folder, {
    setHeaders: (response) => response.set('Cache-Control', 'no-cache'),
  })
  return [
    (request, response, next) => {
      if (!request.path.startsWith('/assets/')) return next()
      const asked = request.url
      request.url = asked.slice('/assets'.length)
      return assets(request, response, () => {
        request.url = asked
        next()
      })
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

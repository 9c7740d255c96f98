import express, { type RequestHandler, type Response } from 'express'
import { existsSync } from 'node:fs'
import { extname, join } from 'node:path'

const YEAR_MS = 365 * 24 * 3_600_000
const PACKED = '.gz'

/**
 * Files with a hash in their name, which never change: browsers keep them. Where the build has put a gzip beside one,
 * whoever takes gzip (RFC 9110 § 8.4.1.3) gets that. Asked with the path below the folder.
 */
export function packedAssets(folder: string): RequestHandler {
  const files = express.static(folder, {
    immutable: true,
    maxAge: YEAR_MS,
    setHeaders: tellPacking,
  })
  return (request, response, next) => {
    response.vary('Accept-Encoding')
    // Whoever asks for a stretch of bytes means those of the file itself.
    const mayBePacked = request.acceptsEncodings('gzip') !== false && request.headers.range === undefined
    if (mayBePacked && NAME.test(request.path) && existsSync(join(folder, request.path + PACKED)))
      request.url = request.path + PACKED
    return files(request, response, next)
  }
}

/** As the build names them: no folder below, and nothing that leads out. */
const NAME = /^\/[\w-][\w.-]*\.(js|css)$/

function tellPacking(response: Response, path: string): void {
  if (!path.endsWith(PACKED)) return
  response.type(extname(path.slice(0, -PACKED.length)))
  response.set('Content-Encoding', 'gzip')
}

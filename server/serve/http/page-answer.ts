import { Readable, pipeline } from 'node:stream'
import type { Response } from 'express'

/** An answer that isn't JSON: a sheet to print, a table, a photo, a stream. Its file name is for saving it. */
export class Page {
  readonly #type: string
  readonly #body: string | Buffer | Readable
  readonly #name: string | null

  constructor(type: string, body: string | Buffer | Readable, name: string | null = null) {
    this.#type = type
    this.#body = body
    this.#name = name
  }

  send(response: Response): void {
    response.set('Content-Type', this.#type)
    if (this.#name !== null)
      response.set('Content-Disposition', `attachment; filename="${this.#name.replaceAll(/[^\w.-]/g, '-')}"`)
    // A sheet carries its style in itself; it runs nothing and loads nothing.
    if (this.#type.startsWith('text/html')) response.set('Content-Security-Policy', SHEET_POLICY)
    // Whoever breaks off in the middle, the other end hears of it; a half sent answer can't be mended any more.
    if (this.#body instanceof Readable) pipeline(this.#body, response, () => {})
    else response.send(this.#body)
  }
}

const SHEET_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'"

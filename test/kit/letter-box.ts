import { once } from 'node:events'
import { type IncomingHttpHeaders, type ServerResponse, createServer } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface ReceivedLetter {
  readonly path: string
  readonly headers: IncomingHttpHeaders
  readonly body: Buffer
}

/** A local HTTP server that takes what is posted to it and answers as it is told to. */
export class LetterBox {
  readonly letters: ReceivedLetter[] = []
  /** How it answers; a status, or whatever a test wants to do with the response. */
  answer: number | ((response: ServerResponse) => void) = 204
  readonly #server = createServer((request, response) => {
    const parts: Buffer[] = []
    request.on('data', (part: Buffer) => parts.push(part))
    request.on('end', () => {
      this.letters.push({ path: request.url ?? '', headers: request.headers, body: Buffer.concat(parts) })
      if (typeof this.answer === 'number') response.writeHead(this.answer).end()
      else this.answer(response)
    })
  })

  /** Listens on a free port of the loopback and gives its address. */
  async open(): Promise<string> {
    this.#server.listen(0, '127.0.0.1')
    await once(this.#server, 'listening')
    return this.url
  }

  get url(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`
  }

  async close(): Promise<void> {
    this.#server.closeAllConnections()
    this.#server.close()
    await once(this.#server, 'close')
  }
}

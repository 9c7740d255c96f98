import { Agent as HttpAgent, type IncomingHttpHeaders, request as httpRequest } from 'node:http'
import { Agent as HttpsAgent, request as httpsRequest } from 'node:https'

export interface Ask {
  readonly method: 'GET' | 'POST'
  /** Below the server's address, with its query. */
  readonly path: string
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: string
}

/** What the server answered, or why it did not. */
export type Answer =
  | {
      readonly ok: true
      readonly status: number
      readonly headers: IncomingHttpHeaders
      readonly body: string
    }
  | { readonly ok: false; readonly sentence: string }

/** An answer that takes longer is as good as none, ms. */
const TIMEOUT_MS = 10_000
/** No answer to a bridge is longer, bytes. */
const MAX_ANSWER_BYTES = 4_000_000

/** The way to one server, over connections that are kept open. */
export class ServerWay {
  readonly #base: URL
  readonly #key: string | null
  readonly #agent: HttpAgent | HttpsAgent

  constructor(base: URL, key: string | null) {
    this.#base = base
    this.#key = key
    const options = { keepAlive: true, maxSockets: 6, noDelay: true }
    this.#agent = base.protocol === 'https:' ? new HttpsAgent(options) : new HttpAgent(options)
  }

  ask({ method, path, headers, body }: Ask): Promise<Answer> {
    const request = this.#base.protocol === 'https:' ? httpsRequest : httpRequest
    return new Promise((resolve) => {
      const fail = (why: string) =>
        resolve({
          ok: false,
          sentence: `the server ${this.#base.origin} does not answer (${why}); is it running?`,
        })
      const sent = request(
        new URL(path, this.#base),
        {
          method,
          agent: this.#agent,
          timeout: TIMEOUT_MS,
          headers: {
            ...headers,
            ...(this.#key === null ? {} : { authorization: `Bearer ${this.#key}` }),
            ...(body === undefined ? {} : { 'content-length': Buffer.byteLength(body) }),
          },
        },
        (response) => {
          const chunks: Buffer[] = []
          let length = 0
          response.on('data', (chunk: Buffer) => {
            length += chunk.length
            if (length > MAX_ANSWER_BYTES) sent.destroy(new Error('its answer is too long'))
            else chunks.push(chunk)
          })
          response.on('error', (error) => fail(error.message))
          response.on('end', () =>
            resolve({
              ok: true,
              status: response.statusCode ?? 0,
              headers: response.headers,
              body: Buffer.concat(chunks).toString('utf8'),
            }),
          )
        },
      )
      sent.on('timeout', () => sent.destroy(new Error(`nothing came for ${TIMEOUT_MS / 1000} s`)))
      sent.on('error', (error: NodeJS.ErrnoException) => fail(error.code ?? error.message))
      sent.end(body)
    })
  }

  close(): void {
    this.#agent.destroy()
  }
}

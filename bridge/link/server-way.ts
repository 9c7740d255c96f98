import {
  Agent as HttpAgent,
  type IncomingHttpHeaders,
  type IncomingMessage,
  type RequestOptions,
  request as httpRequest,
} from 'node:http'
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

/** A server that says nothing for so long does not answer, ms; one that answers drop by drop may take so long in all. */
const TIMEOUT_MS = 10_000
const LONGEST_MS = 30_000
/** No answer to a bridge is longer, bytes. */
const MAX_ANSWER_BYTES = 4_000_000

/** The way to one server, over connections that are kept open. */
export class ServerWay {
  readonly #base: URL
  readonly #key: string | null
  readonly #longestMs: number
  readonly #agent: HttpAgent | HttpsAgent

  constructor(base: URL, key: string | null, longestMs = LONGEST_MS) {
    this.#base = base
    this.#key = key
    this.#longestMs = longestMs
    const options = { keepAlive: true, maxSockets: 6, noDelay: true }
    this.#agent = base.protocol === 'https:' ? new HttpsAgent(options) : new HttpAgent(options)
  }

  ask(ask: Ask): Promise<Answer> {
    const request = this.#base.protocol === 'https:' ? httpsRequest : httpRequest
    return new Promise((resolve) => {
      const fail = ({ code, message }: NodeJS.ErrnoException) => {
        const why = `the server ${this.#base.origin} does not answer (${code ?? message}); is it running?`
        resolve({ ok: false, sentence: why })
      }
      const sent = request(new URL(ask.path, this.#base), this.#optionsOf(ask), (response) => {
        const { headers, statusCode = 0 } = response
        readWhole(response).then((body) => resolve({ ok: true, status: statusCode, headers, body }), fail)
      })
      const within = `no whole answer within ${this.#longestMs / 1000} s`
      const tooLong = setTimeout(() => sent.destroy(new Error(within)), this.#longestMs)
      sent.on('close', () => clearTimeout(tooLong))
      sent.on('timeout', () => sent.destroy(new Error(`nothing came for ${TIMEOUT_MS / 1000} s`)))
      sent.on('error', fail)
      sent.end(ask.body)
    })
  }

  #optionsOf({ method, headers, body }: Ask): RequestOptions {
    return {
      method,
      agent: this.#agent,
      timeout: TIMEOUT_MS,
      headers: {
        ...headers,
        ...(this.#key === null ? {} : { authorization: `Bearer ${this.#key}` }),
        ...(body === undefined ? {} : { 'content-length': Buffer.byteLength(body) }),
      },
    }
  }

  close(): void {
    this.#agent.destroy()
  }
}

/** Rejects when the body breaks off or grows too long. */
async function readWhole(response: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = []
  let length = 0
  for await (const chunk of response as AsyncIterable<Buffer>) {
    length += chunk.length
    if (length > MAX_ANSWER_BYTES) throw new Error('its answer is too long')
    chunks.push(chunk)
  }
  return Buffer.concat(chunks).toString('utf8')
}

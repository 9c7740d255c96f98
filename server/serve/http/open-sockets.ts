import type { Server } from 'node:http'
import type { Socket } from 'node:net'

/** What answers under way may take once the end has begun, ms. */
const LAST_ANSWERS_MS = 1000

/** How often sockets are let go whose answer is out, ms. */
const LOOK_MS = 20

/**
 * Every socket of the server. Its own `close` waits for all of them, and a browser opens some that it never uses; at the
 * end nobody may be waited for who may never speak.
 */
export class OpenSockets {
  readonly #http: Server
  readonly #open = new Set<Socket>()

  constructor(http: Server) {
    this.#http = http
    http.on('connection', (socket: Socket) => {
      this.#open.add(socket)
      socket.once('close', () => this.#open.delete(socket))
    })
  }

  /** Takes no more, lets answers under way out, then cuts what is left. Call it when the pages were let go. */
  async end(): Promise<void> {
    const isClosed = new Promise<void>((resolve) => void this.#http.close(() => resolve()))
    for (const socket of this.#open) if (socket.bytesRead === 0) socket.destroy()
    const idle = setInterval(() => this.#http.closeIdleConnections(), LOOK_MS)
    const tooLate = setTimeout(() => this.#cutAll(), LAST_ANSWERS_MS)
    await isClosed
    clearInterval(idle)
    clearTimeout(tooLate)
  }

  #cutAll(): void {
    for (const socket of this.#open) socket.destroy()
  }
}

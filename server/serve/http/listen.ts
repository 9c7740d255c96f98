import type { Server } from 'node:http'
import { limitHalfOpen } from './limit-half-open.ts'

/** A port that can't be had: one sentence that says what to do. */
export class ListenRefusal extends Error {
  override readonly name = 'ListenRefusal'
}

/** Listens, and answers with the port that it got. */
export function listen(server: Server, host: string, port: number): Promise<number> {
  server.headersTimeout = 10_000
  server.requestTimeout = 30_000
  server.maxConnections = 1000
  limitHalfOpen(server)
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(readable(error, host, port)))
    server.listen(port, host, () => {
      const address = server.address()
      resolve(typeof address === 'object' && address !== null ? address.port : port)
    })
  })
}

function readable(error: NodeJS.ErrnoException, host: string, port: number): Error {
  switch (error.code) {
    case 'EADDRINUSE':
      return new ListenRefusal(
        `port ${port} on ${host} is in use; perhaps Holdfast runs already: end the program that has it, ` +
          'or choose another with --port (0 takes a free one)',
      )
    case 'EACCES':
      return new ListenRefusal(`port ${port} may not be used by this user; allowed are ports from 1024 on`)
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new ListenRefusal(`host is "${host}"; allowed is an address of this computer, such as 127.0.0.1`)
    default:
      return error
  }
}

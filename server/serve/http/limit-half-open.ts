import type { IncomingMessage, Server } from 'node:http'
import type { Socket } from 'node:net'

/** Sockets that may wait for their first whole request at a time. A page or a bridge sends its own within a moment. */
const MOST_HALF_OPEN = 100

/**
 * Sockets that were opened and never say what they want must not take the place of a bridge that has a reading to
 * bring: when too many wait, the one that has waited longest is let go.
 */
export function limitHalfOpen(server: Server): void {
  const waiting = new Set<Socket>()
  server.on('connection', (socket) => {
    waiting.add(socket)
    socket.once('close', () => waiting.delete(socket))
    const [oldest] = waiting
    if (waiting.size > MOST_HALF_OPEN) oldest?.destroy()
  })
  const heard = ({ socket }: IncomingMessage) => void waiting.delete(socket)
  server.on('request', heard)
  server.on('upgrade', heard)
}

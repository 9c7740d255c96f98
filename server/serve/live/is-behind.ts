import type { Socket } from 'socket.io'

/** A page that reads so slowly that this much waits for it is sent away; it comes back and gets what it missed. */
const MOST_WAITING_BYTES = 1_000_000
const MOST_WAITING = 2000

/** How much waits in the page's own socket, or for it. */
export function isBehind({ conn }: Pick<Socket, 'conn'>): boolean {
  const transport = conn.transport as unknown as { socket?: { bufferedAmount?: number } }
  const { writeBuffer } = conn as unknown as { writeBuffer: readonly unknown[] }
  return (transport.socket?.bufferedAmount ?? 0) > MOST_WAITING_BYTES || writeBuffer.length > MOST_WAITING
}

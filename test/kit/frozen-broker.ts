import { createServer, type AddressInfo, type Socket } from 'node:net'
import { onTestFinished } from 'vitest'

/** CONNACK, accepted (MQTT 3.1.1 §3.2). */
const CONNACK = Uint8Array.of(0x20, 0x02, 0x00, 0x00)

/** A broker that lets a client in and then does nothing more, as one whose computer hangs. */
export interface FrozenBroker {
  readonly url: string
  /** Clients that are connected now. */
  connected(): number
}

export async function frozenBroker(): Promise<FrozenBroker> {
  const sockets = new Set<Socket>()
  const server = createServer((socket) => {
    sockets.add(socket)
    socket.on('error', () => undefined)
    socket.once('data', () => socket.write(CONNACK))
    socket.once('close', () => sockets.delete(socket))
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  onTestFinished(() => {
    for (const socket of sockets) socket.destroy()
    server.close()
  })
  const { port } = server.address() as AddressInfo
  return { url: `mqtt://127.0.0.1:${port}`, connected: () => sockets.size }
}

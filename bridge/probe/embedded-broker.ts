import { createServer, type Server, type Socket } from 'node:net'
import { timingSafeEqual } from 'node:crypto'
import { Aedes, type Client } from 'aedes'
import type { BrokerSettings } from '#core/wire/bridge-link'

/** A broker for those who have none: MQTT 3.1.1, closed to strangers, nothing kept on disk. */
export interface EmbeddedBroker {
  readonly port: number
  close(): Promise<void>
}

/** Who enters from inside: the bridge's own subscriptions, by a password made at each start. */
export interface BrokerOwner {
  readonly user: string
  readonly password: string
}

/** No probe's message is longer, bytes; no studio has more devices. */
const MAX_PAYLOAD = 65_536
const MAX_CLIENTS = 200

/** Starts it. Rejects with one sentence when the port can't be had. */
export async function openEmbeddedBroker(
  settings: BrokerSettings,
  owner: BrokerOwner,
): Promise<EmbeddedBroker> {
  const users = new Map(settings.users.map((u) => [u.user, u.password]))
  const broker = await Aedes.createBroker({
    concurrency: 100,
    queueLimit: 100,
    maxClientsIdLength: 64,
    drainTimeout: 5000,
  })
  const names = new WeakMap<Client, string>()
  broker.authenticate = (client, user, password, done) => {
    const wanted = user === owner.user ? owner.password : users.get(user ?? '')
    const isKnown = wanted !== undefined && isSame(wanted, password)
    if (isKnown) names.set(client, user!)
    done(null, isKnown)
  }
  broker.authorizePublish = (client, packet, done) => {
    const user = client === null ? owner.user : names.get(client)
    const isAllowed = user === owner.user || (user !== undefined && packet.topic.startsWith(`${user}/`))
    const isSmall = packet.payload.length <= MAX_PAYLOAD
    done(isAllowed && isSmall ? null : new Error(`publishing is allowed below ${user}/ only`))
  }
  broker.authorizeSubscribe = (client, subscription, done) => {
    const user = client === null ? owner.user : names.get(client)
    const isAllowed = user === owner.user || (user !== undefined && subscription.topic.startsWith(`${user}/`))
    done(null, isAllowed ? subscription : null)
  }
  const server = createServer({ noDelay: true }, broker.handle)
  server.maxConnections = MAX_CLIENTS
  const sockets = openSocketsOf(server)
  await listen(server, settings)
  const address = server.address()
  return {
    port: typeof address === 'object' && address !== null ? address.port : settings.port,
    close: () =>
      new Promise((resolve) =>
        broker.close(() => {
          server.close(() => resolve())
          for (const socket of sockets) socket.destroy()
        }),
      ),
  }
}

/** Also of those who have not said who they are: the broker forgets them at its end, and `close` waits for them. */
function openSocketsOf(server: Server): ReadonlySet<Socket> {
  const sockets = new Set<Socket>()
  server.on('connection', (socket) => {
    sockets.add(socket)
    socket.once('close', () => sockets.delete(socket))
  })
  return sockets
}

function isSame(wanted: string, given: Readonly<Buffer> | undefined): boolean {
  const a = Buffer.from(wanted)
  const b = Buffer.from(given ?? '')
  return a.length === b.length && timingSafeEqual(a, b)
}

function listen(server: Server, { host, port }: BrokerSettings): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const why = error.code === 'EADDRINUSE' ? 'another program has it' : error.message
      reject(new Error(`the broker can't listen on ${host}:${port}: ${why}; set another "port" in "broker"`))
    })
    server.listen(port, host, () => resolve())
  })
}

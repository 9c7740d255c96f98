import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import Database from 'better-sqlite3'
import type { BridgeSettings, BridgeState } from '#core/wire/bridge-link'
import { decodeSenml } from '#core/wire/senml'

/** What a bridge needs of a server and no more: readings once each in a file, settings, the last state. */
export class FakeServer {
  readonly #db: Database.Database
  readonly #server: Server
  settings: Omit<BridgeSettings, 'nowMs'> = { probes: [], find: false, broker: null }
  state: BridgeState | null = null
  /** Answers every request with this status while set. */
  refuseWith: number | null = null
  /** Waits this long before it answers a batch, ms. */
  answerAfterMs = 0
  /** Answers batches of readings, and nothing else, with this status while set. */
  refuseReadingsWith: number | null = null
  batches = 0
  clockOffMs = 0

  private constructor(file: string) {
    this.#db = new Database(file)
    this.#db.pragma('journal_mode = WAL')
    this.#db.pragma('synchronous = FULL')
    this.#db.exec(
      'CREATE TABLE IF NOT EXISTS reading (probe TEXT, boot TEXT, seq INTEGER, at_ms INTEGER, raw_c REAL, fault TEXT, PRIMARY KEY (probe, boot, seq))',
    )
    this.#server = createServer((request, response) => void this.#answer(request, response))
  }

  static async open(file: string, port = 0): Promise<FakeServer> {
    const fake = new FakeServer(file)
    await new Promise<void>((resolve, reject) => {
      fake.#server.once('error', reject)
      fake.#server.listen(port, '127.0.0.1', resolve)
    })
    return fake
  }

  get port(): number {
    return (this.#server.address() as AddressInfo).port
  }

  get url(): URL {
    return new URL(`http://127.0.0.1:${this.port}`)
  }

  /** Everything stored, in order of time. */
  rows(): readonly StoredReading[] {
    return this.#db.prepare<[], StoredReading>('SELECT * FROM reading ORDER BY at_ms, boot, seq').all()
  }

  count(): number {
    return this.#db.prepare<[], { n: number }>('SELECT count(*) AS n FROM reading').get()!.n
  }

  async close(): Promise<void> {
    this.#server.closeAllConnections()
    await new Promise((resolve) => this.#server.close(resolve))
    this.#db.close()
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const chunks: Buffer[] = []
    for await (const chunk of request) chunks.push(chunk as Buffer)
    if (this.refuseWith !== null) return void response.writeHead(this.refuseWith).end()
    const path = new URL(request.url ?? '/', 'http://x').pathname
    const body = Buffer.concat(chunks).toString()
    if (path === '/api/bridge/settings') return this.#answerSettings(request, response)
    if (path === '/api/bridge/state') {
      this.state = JSON.parse(body) as BridgeState
      return void response.writeHead(204).end()
    }
    if (path !== '/api/readings') return void response.writeHead(404).end()
    if (this.refuseReadingsWith !== null) return void response.writeHead(this.refuseReadingsWith).end()
    if (this.answerAfterMs > 0) await new Promise((resolve) => setTimeout(resolve, this.answerAfterMs))
    this.#answerReadings(JSON.parse(body), response)
  }

  #answerSettings(request: IncomingMessage, response: ServerResponse): void {
    const etag = `"${Buffer.from(JSON.stringify(this.settings)).toString('base64url').slice(-40)}-${JSON.stringify(this.settings).length}"`
    if (request.headers['if-none-match'] === etag) return void response.writeHead(304).end()
    response.writeHead(200, { 'content-type': 'application/json', etag })
    response.end(JSON.stringify({ ...this.settings, nowMs: Date.now() + this.clockOffMs }))
  }

  #answerReadings(body: unknown, response: ServerResponse): void {
    const { accepted, refused } = decodeSenml(body, Date.now() + 1e9)
    const insert = this.#db.prepare('INSERT OR IGNORE INTO reading VALUES (?, ?, ?, ?, ?, ?)')
    this.#db.transaction(() => {
      for (const { sample: s, serial } of accepted) {
        const value = s.kind === 'temp' ? ([s.rawC, null] as const) : ([null, s.fault] as const)
        insert.run(s.probe, serial?.boot ?? '', serial?.seq ?? 0, s.atMs, ...value)
      }
    })()
    this.batches++
    response.writeHead(200, { 'content-type': 'application/json' })
    response.end(JSON.stringify({ stored: accepted.length, refused }))
  }
}

export interface StoredReading {
  readonly probe: string
  readonly boot: string
  readonly seq: number
  readonly at_ms: number
  readonly raw_c: number | null
  readonly fault: string | null
}

// The bare chain of the same libraries, bridge side: serial port, line parser, outbox commit, HTTP. No checks, no
// settings, no reconnecting: what the parts cost by themselves.
import { Agent, request } from 'node:http'
import Database from 'better-sqlite3'
import { ReadlineParser, SerialPort } from 'serialport'

const [path, file, url] = process.argv.slice(2) as [string, string, string]
const db = new Database(file)
db.pragma('journal_mode = WAL')
db.pragma('synchronous = FULL')
db.exec('CREATE TABLE waiting (id INTEGER PRIMARY KEY, at_ms INTEGER, raw_c REAL)')
const insert = db.prepare('INSERT INTO waiting (at_ms, raw_c) VALUES (?, ?)')
const remove = db.prepare('DELETE FROM waiting WHERE id = ?')
const agent = new Agent({ keepAlive: true, noDelay: true })

const parser = new SerialPort({ path, baudRate: 9600 }).pipe(new ReadlineParser({ delimiter: '\n' }))
parser.on('data', (line: string) => {
  const rawC = Number(line.slice(2))
  const { lastInsertRowid } = insert.run(Date.now(), rawC)
  const body = JSON.stringify([{ n: 'bare', u: 'Cel', v: rawC }])
  const headers = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) }
  const sent = request(url, { method: 'POST', agent, headers }, (response) => {
    response.resume()
    // Taken off a second later, as in the real outbox, so that it costs the latency nothing.
    response.on('end', () => setTimeout(() => remove.run(lastInsertRowid), 1000))
  })
  sent.end(body)
})
console.log('ready')

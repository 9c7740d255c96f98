// The bare chain of the same libraries, server side: HTTP, commit, websocket.
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import Database from 'better-sqlite3'
import express from 'express'
import { Server } from 'socket.io'

const db = new Database(process.argv[2])
db.pragma('journal_mode = WAL')
db.pragma('synchronous = FULL')
db.exec('CREATE TABLE reading (id INTEGER PRIMARY KEY, at_ms INTEGER, raw_c REAL)')
const insert = db.prepare('INSERT INTO reading (at_ms, raw_c) VALUES (?, ?)')

const app = express()
const http = createServer(app)
const io = new Server(http, { transports: ['websocket'] })
app.use(express.json())
app.post('/', (request, response) => {
  const [{ v }] = request.body as [{ v: number }]
  insert.run(Date.now(), v)
  io.emit('reading', { probe: 'bare', tempC: v })
  response.json({ stored: 1 })
})
http.listen(0, '127.0.0.1', () =>
  console.log(`ready http://127.0.0.1:${(http.address() as AddressInfo).port}`),
)

import { EventEmitter, once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { expect, onTestFinished, test, vi } from 'vitest'
import { type HeatWork, HeatWorkEnded } from '../../../server/serve/heat/heat-work.ts'
import { studioServer } from '../../kit/studio-server.ts'

const VESSEL = { litres: 12, surroundingsC: 18, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } }

/** A socket that says this much and then nothing. */
async function talker(port: number, said: string): Promise<{ socket: Socket; heard: () => string }> {
  const socket = connect(port, '127.0.0.1').on('error', () => undefined)
  onTestFinished(() => void socket.destroy())
  let text = ''
  socket.setEncoding('utf8').on('data', (piece: string) => (text += piece))
  await new Promise<void>((resolve) => socket.once('connect', resolve))
  await new Promise<void>((resolve) => socket.write(said, () => resolve()))
  return { socket, heard: () => text }
}

test.each([
  ['opened it and never spoke', ''],
  ['asked half a question', 'GET /healthz HTTP/1.1\r\nHost: 127'],
  [
    'began to bring readings',
    'POST /api/readings HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 900\r\n\r\n[',
  ],
  ['was cut off as a page', 'GET /socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n'],
])('the end does not wait for a socket whose owner %s', async (_who, said) => {
  const server = await studioServer()
  const { socket } = await talker(server.port, said)
  const gone = new Promise<string>((resolve) => socket.once('close', () => resolve('gone')))
  await server.stop()
  expect(await gone).toBe('gone')
})

test('a page that is let go looks for the server again by itself', async () => {
  const server = await studioServer()
  const page = server.page()
  await new Promise<void>((resolve) => page.once('connect', resolve))
  const why = new Promise<string>((resolve) => page.once('disconnect', resolve))
  await server.stop()
  // After "io server disconnect" a socket.io client stays away; after this it comes back (its documentation of the event).
  expect(await why).toBe('transport close')
})

test('an answer under way is brought to its end', async () => {
  const server = await studioServer()
  const { batches } = server.store
  const letGo = new EventEmitter()
  const reached = new Promise<void>((resolve) => {
    vi.spyOn(batches, 'list').mockImplementationOnce(() => {
      resolve()
      return once(letGo, 'now').then(() => [])
    })
  })
  const asked = server.ask('GET', '/api/batches')
  await reached
  const ended = server.stop()
  letGo.emit('now')
  expect((await asked).status).toBe(200)
  await ended
})

test('the end breaks off a look through a large record', async () => {
  let isBrokenOff = false
  const server = await studioServer({
    store: (store) => ({
      ...store,
      check: (signal) =>
        new Promise((_resolve, reject) =>
          signal!.addEventListener('abort', () => {
            isBrokenOff = true
            reject(new Error('broken off'))
          }),
        ),
    }),
  })
  await server.stop()
  expect(isBrokenOff).toBe(true)
})

/** Learning that comes to no end by itself. */
function neverDone(onRun: () => void): HeatWork {
  const ender = new AbortController()
  const run = () =>
    new Promise<never>((_resolve, reject) => {
      if (ender.signal.aborted) reject(new HeatWorkEnded())
      ender.signal.addEventListener('abort', () => reject(new HeatWorkEnded()))
      onRun()
    })
  return { run, close: async () => ender.abort() }
}

test('the end breaks off what is being learned of a pot, and the evening goes on after the next start', async () => {
  const begun = new EventEmitter()
  const heatWork = neverDone(() => begun.emit('now'))
  const server = await studioServer({ heatWork })
  await server.feed('heron', 16, 16, 16)
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel: VESSEL, probe: 'urn:heron' })
  await server.feed('heron', 16, 16, 16)
  await server.ask('POST', '/api/pots/heron/evening')
  await server.ask('POST', '/api/pots/heron/events', { event: 'dial:10' })
  const reached = once(begun, 'now')
  for (let s = 0; s < 100; s += 1) {
    await server.feed('heron', 16 + s / 40)
    await server.wait(1)
  }
  await reached
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: server.clock })
  const ended = await again.ask('POST', '/api/pots/heron/evening/end', { learn: true })
  expect(ended.body.running).toBe(null)
  const { body } = await again.ask('GET', '/api/pots/heron/burner')
  expect([body.isGuess, body.traces.length]).toEqual([false, 1])
})

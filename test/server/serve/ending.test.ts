import { EventEmitter, once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { expect, onTestFinished, test, vi } from 'vitest'
import { studioServer } from '../../kit/studio-server.ts'

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

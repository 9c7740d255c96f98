import { type Socket, io } from 'socket.io-client'
import type { Answer, CallMessage, PageToServer, ServerToPage, TestMessage } from '#core/wire/live'
import type { StoveMessage } from './stove-state.ts'

/** The live line to the server. */
export interface ServerLink {
  acknowledge(id: number, who: string): Promise<Answer>
  shelve(id: number, minutes: number): Promise<Answer>
  /** Tells the server what this page has shown, and whether it would sound. */
  seen(id: number, sound: boolean): void
  /** A person at this device has heard the test alarm. */
  heardTest(testId: number, device: string): void
}

/** What the server asks of the loudspeaker. */
export interface Calls {
  onCall(call: CallMessage): void
  onTest(test: TestMessage): void
}

/** An act is given up after so long, ms: the person must see that it did not get through. */
const ANSWER_MS = 4_000

/**
 * Connects and keeps connected. Only websocket: a proxy that can't pass it is shown as no connection rather
 * than as a slow one. `lastId` is asked at every connection, so that the server sends what was missed.
 */
export function openServerLink(
  lastId: () => number | null,
  tell: (message: StoveMessage) => void,
  calls: Calls,
): ServerLink {
  const socket: Socket<ServerToPage, PageToServer> = io({
    transports: ['websocket'],
    reconnectionDelay: 500,
    reconnectionDelayMax: 5_000,
    auth: (give) => give({ lastId: lastId() }),
  })
  socket.on('disconnect', () => tell({ kind: 'link', link: 'down' }))
  socket.on('connect_error', () => tell({ kind: 'link', link: 'down' }))
  socket.on('stove', (stove) => tell({ kind: 'stove', stove, hereMs: Date.now() }))
  socket.on('pulse', (pulse) => tell({ kind: 'pulse', pulse, hereMs: Date.now() }))
  socket.on('reading', (reading) => tell({ kind: 'reading', reading }))
  socket.on('alarm', (alarm) => tell({ kind: 'alarm', alarm }))
  socket.on('notice', (notice) => tell({ kind: 'notice', notice }))
  socket.on('leftOut', () => tell({ kind: 'left-out' }))
  socket.on('call', (call) => calls.onCall(call))
  socket.on('test', (test) => calls.onTest(test))
  const waiting = socket.timeout(ANSWER_MS)
  return {
    acknowledge: (id, who) =>
      orRefused(waiting.emitWithAck('acknowledge', who === '' ? { id } : { id, who })),
    shelve: (id, minutes) => orRefused(waiting.emitWithAck('shelve', { id, minutes })),
    heardTest: (testId, device) => void orRefused(waiting.emitWithAck('heardTest', { testId, device })),
    seen: (id, sound) => void orRefused(waiting.emitWithAck('seen', { id, sound })),
  }
}

async function orRefused(answer: Promise<Answer>): Promise<Answer> {
  try {
    return await answer
  } catch {
    return { ok: false, why: 'the server did not answer' }
  }
}

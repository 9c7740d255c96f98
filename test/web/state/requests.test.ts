import { expect, test } from 'vitest'
import { LOG_IN_PATH, serverRequests } from '../../../web/state/requests.ts'

interface Sent {
  readonly path: string
  readonly init: RequestInit
}

/** Requests that are answered as told; what was sent and how often the door was locked is kept. */
function answered(...answers: readonly (Response | Error)[]) {
  const sent: Sent[] = []
  const seen = { locked: 0 }
  const left = [...answers]
  const requests = serverRequests(
    async (path, init) => {
      sent.push({ path, init })
      const answer = left.shift()!
      if (answer instanceof Error) throw answer
      return answer
    },
    () => (seen.locked += 1),
    (sentence) => `«${sentence}»`,
  )
  return { requests, sent, seen }
}
const json = (value: unknown, status = 200) => new Response(JSON.stringify(value), { status })

test('a value is sent as JSON and comes back as one, an act without a body sends none', async () => {
  const { requests, sent } = answered(json({ id: 7 }, 201), new Response('', { status: 200 }))
  expect(await requests.ask('POST', '/api/batches', { title: 'Rose' })).toEqual({
    ok: true,
    value: { id: 7 },
  })
  expect(sent[0]).toMatchObject({ path: '/api/batches', init: { method: 'POST', body: '{"title":"Rose"}' } })
  expect(new Headers(sent.at(0)?.init.headers).get('content-type')).toBe('application/json')
  expect(await requests.ask('POST', '/api/batches/7/end')).toEqual({ ok: true, value: null })
  expect(sent.at(1)?.init).not.toHaveProperty('body')
})

test('a photo goes as it is', async () => {
  const { requests, sent } = answered(json({ fileId: 'f' }))
  const photo = new Blob(['x'], { type: 'image/webp' })
  await requests.ask('POST', '/api/photos', photo)
  expect(sent.at(0)?.init.body).toBe(photo)
  expect(new Headers(sent.at(0)?.init.headers).get('content-type')).toBe('image/webp')
})

// RFC 9457 §3.1: `detail` explains this occurrence, `title` the type of problem.
test('a refusal is its sentence in this person’s language, and its number where there is none', async () => {
  const { requests } = answered(
    json({ title: 'Not found', detail: 'there is no pot "x"' }, 404),
    json({ title: 'Not found' }, 404),
    json('nothing', 500),
  )
  const ask = () => requests.ask('GET', '/api/pots/x')
  expect(await ask()).toEqual({ ok: false, why: '«there is no pot "x"»', status: 404 })
  expect(await ask()).toEqual({ ok: false, why: '«Not found»', status: 404 })
  expect(await ask()).toEqual({ ok: false, why: '«the server answered 500»', status: 500 })
})

test('no answer, or one that is none of ours, is a server that can’t be reached', async () => {
  const { requests } = answered(new Error('refused'), new Response('<html>', { status: 502 }))
  const away = { ok: false, why: '«the server can’t be reached»', status: 0 }
  expect(await requests.ask('GET', '/api/pots')).toEqual(away)
  expect(await requests.ask('GET', '/api/pots')).toEqual(away)
})

test('a door that is locked is told, but not by the question whether the passphrase was right', async () => {
  const { requests, seen } = answered(json({ title: 'x' }, 401), json({ title: 'x' }, 401))
  await requests.ask('POST', LOG_IN_PATH, { passphrase: 'wrong' })
  expect(seen.locked).toBe(0)
  await requests.ask('GET', '/api/pots')
  expect(seen.locked).toBe(1)
})

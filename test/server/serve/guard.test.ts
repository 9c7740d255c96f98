import { request } from 'node:http'
import { expect, test } from 'vitest'
import { hostNameOf } from '../../../server/serve/guard/stranger.ts'
import { TryLimit } from '../../../server/serve/guard/try-limit.ts'
import { startServer } from '../../../server/main.ts'
import { type StudioServer, studioServer } from '../../kit/studio-server.ts'

/** With headers that `fetch` will not send. */
function raw(
  server: StudioServer,
  method: string,
  path: string,
  headers: Record<string, string>,
): Promise<number> {
  return new Promise((resolve, reject) => {
    const asked = request({ port: server.port, host: '127.0.0.1', method, path, headers }, (answer) => {
      answer.resume()
      resolve(answer.statusCode!)
    })
    asked.once('error', reject).end()
  })
}

async function everyRoute(server: StudioServer): Promise<readonly [method: string, path: string][]> {
  const { body } = await server.ask('GET', '/api/openapi.json')
  const described = Object.entries(body.paths as Record<string, object>).flatMap(([path, methods]) =>
    Object.keys(methods).map((method): [string, string] => [
      method.toUpperCase(),
      path.replaceAll(/\{\w+\}/g, '1'),
    ]),
  )
  return [
    ...described,
    ['GET', '/healthz'],
    ['GET', '/metrics'],
    ['GET', '/'],
    ['GET', '/batches/1'],
    ['GET', '/api/x'],
  ]
}

test('a name that is not this server’s is refused on every route (DNS rebinding)', async () => {
  const server = await studioServer()
  const routes = await everyRoute(server)
  expect(routes.length).toBeGreaterThan(35)
  for (const [method, path] of routes)
    expect([method, path, await raw(server, method, path, { host: 'evil.example' })]).toEqual([
      method,
      path,
      421,
    ])
})

test('a page of another site is refused on every route, by Origin and by Sec-Fetch-Site', async () => {
  const server = await studioServer()
  const host = `127.0.0.1:${server.port}`
  for (const [method, path] of await everyRoute(server)) {
    const foreign = [
      { origin: 'http://evil.example' },
      { origin: 'null' },
      { 'sec-fetch-site': 'cross-site' },
    ]
    for (const headers of foreign)
      expect([path, headers, await raw(server, method, path, { host, ...headers })]).toEqual([
        path,
        headers,
        403,
      ])
  }
  expect(await raw(server, 'GET', '/api/pots', { host, origin: `http://${host}` })).toBe(200)
  expect(await raw(server, 'GET', '/api/pots', { host: `localhost:${server.port}` })).toBe(200)
})

test('a link from another site may open the page and nothing of the API', async () => {
  const server = await studioServer()
  const link = {
    host: `127.0.0.1:${server.port}`,
    'sec-fetch-site': 'cross-site',
    'sec-fetch-mode': 'navigate',
  }
  expect(await raw(server, 'GET', '/healthz', link)).toBe(200)
  expect(await raw(server, 'GET', '/api/pots', link)).toBe(403)
})

test.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', ''])(
  'a body as %s, which any site may send, is refused before it is read',
  async (type) => {
    const server = await studioServer()
    const { status, body } = await server.ask('POST', '/api/pots', '{"title":"Heron"}', {
      'content-type': type,
    })
    expect([status, body.title]).toEqual([415, 'Wrong media type'])
    expect((await server.ask('GET', '/api/pots')).body).toEqual([])
  },
)

test('the websocket refuses foreign pages, foreign names and browsers that say no Origin', async () => {
  const server = await studioServer()
  const refused = async (headers: Record<string, string>) =>
    new Promise<boolean>((resolve) => {
      const page = server.page({}, headers)
      page.once('connect', () => resolve(false)).once('connect_error', () => resolve(true))
    })
  expect(await refused({ origin: 'http://evil.example' })).toBe(true)
  expect(await refused({ origin: 'null' })).toBe(true)
  expect(await refused({ host: 'evil.example' })).toBe(true)
  expect(await refused({ 'user-agent': 'Mozilla/5.0' })).toBe(true)
  expect(await refused({ origin: server.url, 'user-agent': 'Mozilla/5.0' })).toBe(false)
  expect(await refused({})).toBe(false)
})

// It was answered twice: by the socket's library with what is no problem document, and by the app, too late.
test('a plain request to the websocket’s address is guarded and refused as any other', async () => {
  const server = await studioServer()
  const path = '/socket.io/?EIO=4&transport=polling'
  expect((await server.ask('GET', path)).body).toMatchObject({ status: 426, title: 'Websocket only' })
  const stranger = await server.ask('GET', path, undefined, { origin: 'http://elsewhere.example' })
  expect(stranger.status).toBe(403)
})

test('a page that floods the socket, or sends more than a page ever does, is cut off', async () => {
  const server = await studioServer()
  const gone = (page: ReturnType<typeof server.page>) =>
    new Promise((resolve) => void page.once('disconnect', resolve))
  const flooding = server.page()
  await new Promise((resolve) => void flooding.once('stove', resolve))
  const flooded = gone(flooding)
  for (let n = 0; n < 100; n += 1) flooding.emit('seen', { id: n, sound: true }, () => undefined)
  expect(await flooded).toBe('io server disconnect')
  const large = server.page()
  await new Promise((resolve) => void large.once('stove', resolve))
  const cut = gone(large)
  large.emit('acknowledge', { id: 1, who: 'x'.repeat(20_000) }, () => undefined)
  expect(await cut).toMatch(/transport/)
})

test('bodies are strict, bounded, and can’t reach the prototype', async () => {
  const server = await studioServer()
  const post = (body: string) => server.ask('POST', '/api/pots', body)
  expect((await post('{"title":"Heron","__proto__":{"x":1}}')).status).toBe(400)
  expect((await post('{"title":"Heron","constructor":{"prototype":{"x":1}}}')).status).toBe(400)
  expect(({} as { x?: number }).x).toBe(undefined)
  expect((await post('{"titel":"Heron"}')).body.detail).toContain('the nearest known one is "title"')
  // A right name at the wrong place: where it belongs.
  const nested = async (field: string) =>
    (await post(JSON.stringify({ title: 'Heron', [field]: 20 }))).body.detail as string
  expect(await nested('litres')).toContain('the nearest known one is "vessel.litres"')
  expect(await nested('dial_max')).toContain('the nearest known one is "vessel.burner.dialMax"')
  expect((await post('{"title":')).body.detail).toContain('not JSON')
  expect((await post('3')).body.detail).toBe('the body is 3; allowed is an object')
  const large = await post(JSON.stringify({ title: 'x'.repeat(120_000) }))
  expect([large.status, large.body.detail]).toEqual([
    413,
    'the body is larger than 100 kB, which is allowed at most',
  ])
})

test('refusals are problem details without a stack, and every answer has the guarding headers', async () => {
  const server = await studioServer()
  const { status, headers, body } = await server.ask('GET', '/api/batches/9')
  expect(status).toBe(404)
  expect(headers.get('content-type')).toContain('application/problem+json')
  expect(body).toEqual({
    type: 'about:blank',
    title: 'Not found',
    status: 404,
    detail: 'there is no batch 9',
  })
  expect(headers.get('content-security-policy')).toContain("frame-ancestors 'none'")
  expect(headers.get('x-content-type-options')).toBe('nosniff')
  expect((await server.ask('DELETE', '/api/plans')).status).toBe(405)
})

test('without a passphrase or a key nobody else can be let in, so the server does not start', async () => {
  await expect(studioServer({ settings: { host: '0.0.0.0' } })).rejects.toThrow(
    /neither "key" nor "passphrase" is set/,
  )
  expect(typeof startServer).toBe('function')
})

test('with a passphrase everybody logs in, and wrong tries are counted', async () => {
  const server = await studioServer({
    settings: { passphrase: 'weld and woad 12', key: 'a-key-of-16-letters' },
  })
  const refused = await server.ask('GET', '/api/pots')
  // RFC 9110 §15.5.2: a 401 must say in `WWW-Authenticate` how one may show oneself.
  expect([refused.status, refused.headers.get('www-authenticate')]).toEqual([401, 'Bearer'])
  expect((await server.ask('GET', '/healthz')).status).toBe(200)
  const logIn = (passphrase: string) => server.ask('POST', '/api/log-in', { passphrase })
  const { headers } = await logIn('weld and woad 12')
  const cookie = headers.get('set-cookie')!
  expect(cookie).toMatch(/HttpOnly; SameSite=Strict$/)
  const session = { cookie: cookie.split(';')[0]! }
  expect((await server.ask('GET', '/api/pots', undefined, session)).status).toBe(200)
  const forged = { cookie: `holdfast=${Date.UTC(2030)}.${'0'.repeat(64)}` }
  expect((await server.ask('GET', '/api/pots', undefined, forged)).status).toBe(401)
  const key = { authorization: 'Bearer a-key-of-16-letters' }
  expect((await server.ask('GET', '/api/pots', undefined, key)).status).toBe(200)
  for (let n = 0; n < 4; n += 1) expect((await logIn('wrong wrong wrong')).status).toBe(401)
  expect((await logIn('weld and woad 12')).status).toBe(429)
})

test('tries are forgotten after their time', () => {
  const limit = new TryLimit(2, 1000)
  expect([limit.take('a', 0), limit.take('a', 1), limit.take('a', 2), limit.take('b', 2)]).toEqual([
    true,
    true,
    false,
    true,
  ])
  expect(limit.take('a', 1001)).toBe(true)
})

test('a Host is a name with an optional port and nothing else', () => {
  expect(hostNameOf('LOCALHOST:4715')).toBe('localhost')
  expect(hostNameOf('[::1]:80')).toBe('[::1]')
  for (const wrong of ['', 'a b', 'a/b', 'a@b', 'a:b', 'a:1:2']) expect(hostNameOf(wrong)).toBe(null)
})

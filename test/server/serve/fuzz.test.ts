import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import * as fc from 'fast-check'
import { afterAll, expect, test } from 'vitest'
import { heronInMordant, studioServer } from '../../kit/studio-server.ts'

interface Operation {
  readonly parameters?: readonly { readonly name: string; readonly in: string }[]
  readonly requestBody?: {
    readonly content: Record<string, { readonly schema: { readonly properties?: object } }>
  }
}

const odd = fc.oneof(
  fc.constantFrom(
    null,
    true,
    0,
    -1,
    1e308,
    '',
    'heron',
    'urn:heron',
    '__proto__',
    '=1+1',
    '\u0000',
    '2026-01-01T00:00:00Z',
  ),
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.jsonValue({ maxDepth: 2 }),
)

const folder = mkdtempSync(join(tmpdir(), 'holdfast-fuzz-'))
afterAll(() => rmSync(folder, { recursive: true }))

/** A copy is really written where it is asked for: keep it out of the folder that the tests run in. */
const harmless = (field: string, value: unknown) =>
  field === 'file' && typeof value === 'string' ? join(folder, Buffer.from(value).toString('hex')) : value

test('property: whatever is sent to whatever address, the server never fails and goes on watching', async () => {
  const before = readdirSync('.')
  const server = await studioServer()
  await heronInMordant(server)
  const { paths } = (await server.ask('GET', '/api/openapi.json')).body as {
    paths: Record<string, Record<string, Operation>>
  }
  // A backup writes where it is told, also when that is a mad place: it has tests of its own.
  const operations = Object.entries(paths)
    .filter(([path]) => path !== '/api/backup')
    .flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
    )
  const places = fc.array(fc.constantFrom('1', '2', 'heron', 'mordant', 'urn:heron', '%25', '..%2fx'), {
    minLength: 3,
  })
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...operations),
      places,
      fc.array(odd, { minLength: 8 }),
      async (one, ids, values) => {
        const { path, method, operation } = one
        const filled = path.replaceAll(/\{\w+\}/g, () => ids.shift() ?? '1')
        const query = (operation.parameters ?? []).filter((p) => p.in === 'query')
        const asked = query
          .map((p, i) => `${p.name}=${encodeURIComponent(JSON.stringify(values[i] ?? ''))}`)
          .join('&')
        const [type, content] = Object.entries(operation.requestBody?.content ?? {})[0] ?? [
          'application/json',
          null,
        ]
        const fields = Object.keys(content?.schema.properties ?? { a: 1 })
        const body =
          method === 'get'
            ? undefined
            : Object.fromEntries(fields.map((f, i) => [f, harmless(f, values[i] ?? null)]))
        const { status } = await server.ask(method.toUpperCase(), `${filled}?${asked}`, body, {
          'content-type': type,
        })
        expect([method, path, status < 500]).toEqual([method, path, true])
      },
    ),
    { numRuns: 300 },
  )
  await server.wait(1)
  expect((await server.ask('GET', '/healthz')).body).toMatchObject({ ok: true, trouble: null })
  expect(readdirSync('.')).toEqual(before)
})

import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { studioServer } from '../../kit/studio-server.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

const SCRIPT = 'export const bath = "warm"\n'.repeat(200)

async function served() {
  const folder = tempFolder()
  const assets = join(folder, 'web/assets')
  mkdirSync(assets, { recursive: true })
  writeFileSync(join(assets, 'main-1a.js'), SCRIPT)
  writeFileSync(join(assets, 'main-1a.js.gz'), gzipSync(SCRIPT))
  writeFileSync(join(assets, 'plain-2b.css'), 'main{}')
  const { url } = await studioServer({ folder })
  return async (name: string, headers: Record<string, string>) => {
    const answer = await fetch(`${url}/assets/${name}`, { headers })
    const told = ['content-type', 'content-encoding', 'vary', 'cache-control'].map((h) =>
      answer.headers.get(h),
    )
    return { status: answer.status, told, text: await answer.text() }
  }
}

// Content-Encoding, Vary and Range: RFC 9110, sections 8.4.1.3, 12.5.5 and 14.2.
test('whoever takes gzip gets the packed file as what it is; whoever does not gets the file', async () => {
  const ask = await served()
  const cache = 'public, max-age=31536000, immutable'
  const type = 'text/javascript; charset=utf-8'
  expect(await ask('main-1a.js', { 'accept-encoding': 'gzip, br' })).toEqual({
    status: 200,
    told: [type, 'gzip', 'Accept-Encoding', cache],
    text: SCRIPT,
  })
  expect(await ask('main-1a.js', { 'accept-encoding': 'identity' })).toEqual({
    status: 200,
    told: [type, null, 'Accept-Encoding', cache],
    text: SCRIPT,
  })
  const part = await ask('main-1a.js', { 'accept-encoding': 'gzip', range: 'bytes=0-5' })
  expect([part.status, part.told[1], part.text]).toEqual([206, null, 'export'])
})

test('what was not packed is sent as it lies there, and no name leads out of the folder', async () => {
  const ask = await served()
  const gzip = { 'accept-encoding': 'gzip' }
  expect(await ask('plain-2b.css', gzip)).toMatchObject({ status: 200, text: 'main{}' })
  expect((await ask('missing.js', gzip)).status).toBe(404)
  expect((await ask('..%2f..%2fholdfast.db', gzip)).status).toBeGreaterThanOrEqual(400)
})

import { isAbsolute } from 'node:path'
import { z } from 'zod'
import { boilingC } from '#core/bath/water'
import { doneAnswer } from '#core/wire/api-fields'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Problem } from '../http/problem.ts'
import { StoreRefusal } from '../../store/store-refusal.ts'
import { isLoopbackHost } from '../guard/stranger.ts'
import { TryLimit } from '../guard/try-limit.ts'
import type { Studio } from '../studio.ts'
import { stoveLive } from '../watch/stove-live.ts'

const MINUTE_MS = 60_000

/** The whole picture, logging in, and copies of everything. */
export function systemRoutes(studio: Studio): readonly Endpoint[] {
  const tries = new TryLimit(5, MINUTE_MS)
  return [
    endpoint({
      method: 'get',
      path: '/api/stove',
      summary: 'What the pages show now, as the socket sends it',
      answer: z.looseObject({ atMs: z.number() }),
      handle: async () => stoveLive(studio),
    }),
    endpoint({
      method: 'post',
      path: '/api/log-in',
      summary: 'Opens a session with the passphrase of the settings',
      body: z.strictObject({ passphrase: z.string().max(256) }),
      answer: doneAnswer,
      handle: async ({ body, answerHeader, from }) => {
        const nowMs = studio.clock.nowMs()
        if (!tries.take(from, nowMs)) throw new Problem(429, 'too many tries; wait a minute')
        const cookie = studio.access.logIn(body.passphrase, nowMs)
        if (cookie === null) throw new Problem(401, 'this is not the passphrase')
        answerHeader('Set-Cookie', cookie)
        return { ok: true }
      },
    }),
    endpoint({
      method: 'get',
      path: '/api/studio',
      summary: 'Name, units and version of this studio, and where water boils there',
      answer: z.object({
        studio: z.string().nullable(),
        unit: z.enum(['C', 'F']),
        version: z.string(),
        boilC: z.number(),
        money: z.string().nullable(),
      }),
      handle: async () => {
        const { studio: name, unit, altitudeM, money } = studio.settings()
        const boilC = boilingC(altitudeM)
        return { studio: name ?? null, unit, version: studio.version, boilC, money: money ?? null }
      },
    }),
    endpoint({
      method: 'post',
      path: '/api/backup',
      summary: 'Writes a copy of the whole record to a file of this computer; only from this computer',
      body: z.strictObject({ file: z.string().min(1).max(1024) }),
      answer: z.object({ file: z.string() }),
      handle: async ({ body, entry, from }) => {
        const isHere = isLoopbackHost(from.replace(/^::ffff:/, ''))
        if (entry === 'person' || !isHere) throw new Problem(403, 'a backup is made from this computer')
        if (!isAbsolute(body.file))
          throw new Problem(
            400,
            `file is ${JSON.stringify(body.file)}; allowed is a whole path, from the root`,
          )
        await studio.backup(body.file).catch((error: unknown) => {
          throw error instanceof StoreRefusal ? new Problem(409, error.message) : error
        })
        return { file: body.file }
      },
    }),
  ]
}

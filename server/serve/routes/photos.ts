import { z } from 'zod'
import type { Lab } from '#core/batch/colour'
import { currentRecord } from '#core/batch/current-record'
import { GREY_CARD, type KnownPatch, photoColour } from '#core/batch/photo-colour'
import { photoColourAsk } from '#core/wire/api-record'
import { recordLineOf } from '#core/wire/record-line'
import { entriesOf } from '../../report/lots-of-bath.ts'
import { PHOTO_TYPES, type PhotoType } from '../../store/photos.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Page } from '../http/page-answer.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: z.string().regex(/^[0-9a-f]{64}$/, 'the id of a photo') })

/** Photos of bath, wet and dry goods. A photo is added first, then a line of the record names it. */
export const photoRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'post',
    path: '/api/photos',
    summary:
      'Keeps a photo (JPEG, PNG or WebP, the picture itself as the body); its id goes into a line of the record',
    answer: z.object({ fileId: z.string() }),
    body: z.unknown(),
    status: 201,
    handle: async ({ body }) => {
      const type = Buffer.isBuffer(body) ? typeOf(body) : null
      if (type === null) throw new Problem(415, `the body is no photo; allowed are ${PHOTO_TYPES.join(', ')}`)
      const photo = { type, bytes: body as Buffer, addedMs: studio.clock.nowMs() }
      return { fileId: await studio.recorder.write(() => studio.store.photos.add(photo)) }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/photos/:id',
    summary: 'A photo',
    params,
    answer: z.unknown(),
    answerTypes: ['image/jpeg', 'image/png', 'image/webp'],
    handle: async ({ params: { id }, answerHeader }) => {
      const photo = await studio.store.photos.get(id)
      if (photo === null) throw notFound('such photo')
      // Its id is the hash of its bytes: it never changes.
      answerHeader('Cache-Control', 'private, max-age=31536000, immutable')
      return new Page(photo.type, photo.bytes)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/photo-colour',
    summary:
      'The colour of goods in a photo in CIELAB, from their pixels and those of a grey card or a known swatch in it',
    body: photoColourAsk,
    answer: z.object({
      lab: z.object({ lightness: z.number(), a: z.number(), b: z.number() }),
      leftOver: z.number(),
      doubt: z.number(),
    }),
    handle: async ({ body: { goods, known } }) => {
      const patches = await Promise.all(
        known.map(async ({ seen, is }): Promise<KnownPatch> => {
          if (is === 'grey-card') return { seen, known: GREY_CARD }
          return { seen, known: 'batchId' in is ? await labOfBatch(studio, is.batchId) : is }
        }),
      )
      const found = photoColour(goods, patches)
      if (!found.ok) throw new Problem(422, found.why)
      const { lab, leftOver, doubt } = found
      return { lab, leftOver, doubt }
    },
  }),
]

/** The colour that a batch's result has on record. */
async function labOfBatch(studio: Studio, id: number): Promise<Lab> {
  const batch = await studio.store.batches.get(id)
  if (batch === null) throw notFound(`batch ${id}`)
  const lines = (await entriesOf(studio.store, batch)).map(recordLineOf)
  const { lab } = currentRecord(lines.filter((line) => line !== null)).result
  if (lab === undefined) throw new Problem(409, `the result of batch ${id} has no colour in CIELAB yet`)
  return lab
}

/** By the first bytes, as each format defines them; what the sender says is not believed. */
function typeOf(bytes: Buffer): PhotoType | null {
  const starts = (...signature: number[]) => signature.every((byte, i) => bytes[i] === byte)
  if (starts(0xff, 0xd8, 0xff)) return 'image/jpeg'
  if (starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return 'image/png'
  const word = (from: number) => bytes.subarray(from, from + 4).toString('latin1')
  return word(0) === 'RIFF' && word(8) === 'WEBP' ? 'image/webp' : null
}

import type { CurrentRecord } from '#core/batch/current-record'
import type { Store } from '../store/store.ts'

/** A sheet with more photos than this is an album; the others are listed in words. */
const MOST_PICTURES = 12

/**
 * The photos of a record as `data:` addresses, by file id, so that a sheet holds them itself and prints anywhere.
 * Of many, those of the dry goods come first: they are what a shade is judged by.
 */
export async function picturesOf(
  { photos }: Pick<Store, 'photos'>,
  record: CurrentRecord,
): Promise<Readonly<Record<string, string>>> {
  const dryFirst = [...record.photos].sort(
    (a, b) => Number(b.body.of === 'dry') - Number(a.body.of === 'dry') || a.atMs - b.atMs,
  )
  const ids = [...new Set(dryFirst.map(({ body }) => body.fileId))].slice(0, MOST_PICTURES)
  const found = (await Promise.all(ids.map((id) => photos.get(id)))).filter((photo) => photo !== null)
  return Object.fromEntries(
    found.map(({ id, type, bytes }) => [id, `data:${type};base64,${bytes.toString('base64')}`]),
  )
}

import type { BatchSummary } from '#core/wire/records'
import type { Store } from '../store/store.ts'
import { type ArchiveFile, archiveIndex, archiveOfBatch } from './archive.ts'
import { batchesCsv } from './csv.ts'
import type { PrintFor } from './print-for.ts'

/** Batches read at a time. */
const PAGE = 200

/**
 * The whole studio, one batch after the other, so that only one is held at a time: a folder for each, then
 * `batches.csv` with one row each and `index.html` to begin with.
 */
export async function* wholeArchive(
  store: Store,
  reader: PrintFor,
  nowMs: number,
): AsyncGenerator<ArchiveFile> {
  const all = await allBatches(store)
  for (const { id } of all)
    for (const { name, content } of (await archiveOfBatch(store, id, reader, nowMs)) ?? [])
      yield { name: `batch-${id}/${name}`, content }
  yield { name: 'batches.csv', content: batchesCsv(all.toReversed()) }
  yield { name: 'index.html', content: archiveIndex(all, reader) }
}

/** Newest first. */
async function allBatches(store: Store): Promise<readonly BatchSummary[]> {
  const all: BatchSummary[] = []
  for (let beforeId = Number.MAX_SAFE_INTEGER; ; beforeId = all.at(-1)!.id) {
    const page = await store.batches.list({ limit: PAGE, beforeId })
    all.push(...page)
    if (page.length < PAGE) return all
  }
}

import { currentRecord } from '#core/batch/current-record'
import { recordLineOf } from '#core/wire/record-line'
import type { Store } from '../../store/store.ts'
import type { TaughtTrace } from '../../store/heat.ts'
import { type BathSpan, bathSpans } from './bath-spans.ts'

/** Older batches say nothing that newer ones don't say better. */
const BATCHES = 20

/** Every fill of a pot on record, oldest first; evenings stand where they were. `probe`: the one that hangs in it now. */
export async function recordedFills(
  store: Store,
  potId: string,
  probe: string | null,
): Promise<readonly BathSpan[]> {
  const found = await store.lookUp.find({ facets: [{ kind: 'pot', value: potId }], limit: BATCHES })
  // A lot in another batch's bath has that one's stages: a bath is learned from once.
  const spans: BathSpan[] = []
  for (const { id } of found.filter(({ bathOf }) => bathOf === null)) {
    const batch = await store.batches.get(id)
    const litres = await weighedLitres(store, id)
    if (batch !== null) spans.push(...bathSpans(batch, potId).map((span) => withLitres(span, litres)))
  }
  for (const row of await store.heat.taught(potId))
    if (row.batchId === null) spans.push(await eveningSpan(store, row, probe))
  spans.sort((a, b) => a.fromMs - b.fromMs)
  return spans.map((span, i) => {
    const before = spans
      .slice(0, i)
      .findLast((other) => other.batchId === null || other.batchId !== span.batchId)
    return before === undefined ? span : Object.assign({}, span, { notedSinceMs: before.toMs })
  })
}

/** What the dyer wrote down of the water of a batch; better than how the pot is usually filled. */
async function weighedLitres(store: Store, batchId: number): Promise<number | null> {
  const lines = (await store.entries.ofBatch(batchId)).map(recordLineOf)
  return currentRecord(lines.filter((line) => line !== null)).water.litres ?? null
}

const withLitres = (span: BathSpan, litres: number | null): BathSpan =>
  litres === null || litres <= 0 ? span : { ...span, litres }

async function eveningSpan(
  store: Store,
  { potId, fromMs, toMs, litres }: TaughtTrace,
  probeNow: string | null,
): Promise<BathSpan> {
  const hung = await store.pots.assignments(fromMs)
  const probe = hung.find((a) => a.potId === potId && a.fromMs <= fromMs)?.probe ?? probeNow
  const runs = probe === null ? [] : [{ stage: null, probe, startedMs: fromMs, endedMs: toMs }]
  return { batchId: null, fromMs, toMs, runs, litres }
}

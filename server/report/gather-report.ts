import { correctionsOf } from '#core/batch/corrections'
import { ownCorrections } from '#core/batch/own-corrections'
import { currentRecord } from '#core/batch/current-record'
import { bathDryG } from '#core/batch/shared-bath'
import type { RecordLine } from '#core/batch/record-line'
import type { Stage } from '#core/plan/plan'
import type { Trace } from '#core/batch/trace-facts'
import { alarmText } from '#core/words/alarm-text'
import type { Names } from '#core/words/names'
import type { Person } from '#core/words/person'
import { recordLineOf } from '#core/wire/record-line'
import type { AlarmRecord, BatchRecord, StageRun } from '#core/wire/records'
import { alarmRecord, type StoredAlarm } from '../store/alarms.ts'
import { bathId } from '../store/batches.ts'
import type { Store } from '../store/store.ts'
import { entriesOf, lotsOf } from './lots-of-bath.ts'
import { picturesOf } from './pictures-of.ts'
import type { ReportBatch } from './report-batch.ts'

export interface Gathered {
  readonly report: ReportBatch
  readonly lines: readonly RecordLine[]
}

/** What a batch's report needs of the store. */
export type ReportStore = Pick<
  Store,
  'batches' | 'events' | 'entries' | 'alarms' | 'pots' | 'readings' | 'photos'
>

/** No batch has more; a page with more alarms than this says nothing any more. */
const MOST_ALARMS = 1000

/** `person`: alarms are said in their unit, zone and language; left out: as they were told. */
export interface GatherOptions {
  readonly pointsOf?: (stage: Stage | undefined) => number
  readonly person?: Person
  /** Photos too, for what is printed. */
  readonly withPictures?: boolean
}

/**
 * Everything of a batch for its reports; `null` when there is none. `pointsOf`: the most points of a stage's
 * trace, the lowest and highest of each slot being kept; left out: every reading.
 */
export async function gatherReport(
  store: ReportStore,
  batchId: number,
  printedMs: number,
  { pointsOf = () => MOST_POINTS, person, withPictures = false }: GatherOptions = {},
): Promise<Gathered | null> {
  const stored = await store.batches.get(batchId)
  if (stored === null) return null
  const [events, entries, alarms, pots] = await Promise.all([
    store.events.ofBatch(bathId(stored)),
    entriesOf(store, stored),
    store.alarms.list({ batchId: bathId(stored), limit: MOST_ALARMS }),
    store.pots.list(),
  ])
  const lines = entries.map(recordLineOf).filter((line) => line !== null)
  const potTitles = Object.fromEntries(pots.map((pot) => [pot.id, pot.title]))
  const stages = Object.fromEntries(stored.plan.stages.map((stage) => [stage.id, stage.title]))
  const names = { pots: potTitles, stages, contents: {} }
  const lots = await lotsOf(store, stored)
  const batch: BatchRecord = {
    ...stored,
    lots: stored.lots.length === 0 ? [] : lots,
    events: events.filter((event) => event.struckMs === null),
    alarms: alarms.map((alarm) => wordedFor(alarm, names, person)).toReversed(),
  }
  const traces = await Promise.all(
    stored.stages.map((run) => {
      const stage = stored.plan.stages.find((s) => s.id === run.stageId)
      return traceOf(store, run, printedMs, pointsOf(stage))
    }),
  )
  const record = currentRecord(lines)
  const report: ReportBatch = {
    batch,
    stages: stored.stages.map((run, i) => ({ run, trace: traces[i]! })),
    record,
    corrections: [...entries.flatMap(ownCorrections), ...correctionsOf(lines)].sort(
      (a, b) => a.notedMs - b.notedMs,
    ),
    potTitles,
    bathDryG: bathDryG(lots),
    pictures: withPictures ? await picturesOf(store, record) : {},
    printedMs,
  }
  return { report, lines }
}

function wordedFor(alarm: StoredAlarm, names: Names, person: Person | undefined): AlarmRecord {
  const record = alarmRecord(alarm)
  return person === undefined ? record : { ...record, text: alarmText(alarm.entry.happening, names, person) }
}

/** Believed readings of a stage. A reading at the very end still belongs to it. */
async function traceOf(store: ReportStore, run: StageRun, nowMs: number, points: number): Promise<Trace> {
  if (run.probe === null) return []
  const range = { probe: run.probe, fromMs: run.startedMs, toMs: (run.endedMs ?? nowMs) + 1 }
  return store.readings.trace(range, points)
}

/** Ten days at a reading a second. */
const MOST_POINTS = 864_000

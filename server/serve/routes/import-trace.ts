import { type BeliefState, believe, startBelief } from '#core/measure/believe'
import type { Reading, Sample } from '#core/measure/reading'
import type { BathEvent } from '#core/plan/event'
import { REPLAY_POT, replayDay } from '#core/watch/replay-day'
import { stageOutcomes } from '#core/watch/stove'
import type { Trace } from '#core/watch/trace-moment'
import { decodeTrace } from '#core/wire/trace-file'
import type { StoredBatch } from '../../store/batches.ts'
import { Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

/** Where an imported batch ran: no pot of the stove, so that nothing on it is disturbed. */
const IMPORT_POT = 'imported'
/** Readings committed at a time. */
const PACK = 5000

export interface Imported {
  readonly readings: number
  readonly rejected: number
  readonly duplicates: number
  readonly stages: number
}

/**
 * Takes a trace file, from whatever wrote it, into a batch that has not run yet: its readings under a probe of their
 * own, its stages and events, and what the stages came to by the code that watches a live bath.
 */
export async function importTrace(studio: Studio, batch: StoredBatch, csv: string): Promise<Imported> {
  if (batch.state !== 'planned')
    throw new Problem(409, `batch ${batch.id} has run already; allowed is one that has not`)
  const stageIds = batch.plan.stages.map((stage) => stage.id)
  const decoded = decodeTrace(csv, stageIds)
  if (!decoded.ok) throw new Problem(400, decoded.why)
  const { trace } = decoded
  const probe = `import-${batch.id}`
  const readings = readingsOf(trace, probe)
  await studio.recorder.write(async () => {
    await studio.store.probes.see(probe, trace.moments[0]!.atMs, true)
    studio.probes.add([probe])
    for (let from = 0; from < readings.length; from += PACK)
      await studio.store.readings.add(readings.slice(from, from + PACK))
    await addStages(studio, batch, trace, probe)
  })
  await studio.stove.refresh()
  studio.showStove()
  const stages = eventsOf(trace, stageIds[0]!).filter(({ event }) => event.kind === 'stage').length
  return { readings: readings.length, rejected: trace.rejected, duplicates: trace.duplicates, stages }
}

/** Judged as live ones are, one after the other; a cell that was no number stays on record as a fault. */
function readingsOf(trace: Trace, probe: string): readonly { reading: Reading; serial: null }[] {
  let belief: BeliefState = startBelief()
  return trace.moments.flatMap(({ atMs, tempC, found }) => {
    if (tempC === null && found === null) return []
    const sample: Sample =
      tempC === null
        ? { kind: 'fault', probe, atMs, fault: 'error-code', found: (found ?? '').slice(0, 80) }
        : { kind: 'temp', probe, atMs, rawC: tempC }
    const judged = believe(belief, sample, (rawC) => rawC)
    belief = judged.state
    return [{ reading: judged.reading, serial: null }]
  })
}

interface Noted {
  readonly atMs: number
  readonly event: BathEvent
}

/** Where nobody noted a stage, the plan's first one is taken to run from the first row on. */
function eventsOf(trace: Trace, firstStageId: string): readonly Noted[] {
  const all = trace.moments.flatMap(({ atMs, events }) => events.map((event) => ({ atMs, event })))
  if (all.some(({ event }) => event.kind === 'stage')) return all
  return [{ atMs: trace.moments[0]!.atMs, event: { kind: 'stage', stageId: firstStageId } }, ...all]
}

async function addStages(
  { store, clock }: Studio,
  batch: StoredBatch,
  trace: Trace,
  probe: string,
): Promise<void> {
  const events = eventsOf(trace, batch.plan.stages[0]!.id)
  const notedMs = clock.nowMs()
  for (const { atMs, event } of events) {
    const stageId = event.kind === 'stage' ? event.stageId : null
    const row = { atMs, notedMs, potId: IMPORT_POT, batchId: batch.id, stageId, event, who: null }
    if (stageId !== null)
      await store.batches.startStage({
        batchId: batch.id,
        stageId,
        potId: IMPORT_POT,
        probe,
        startedMs: atMs,
      })
    await store.events.add(row)
  }
  const endMs = events.findLast(({ event }) => event.kind === 'end')?.atMs ?? trace.moments.at(-1)!.atMs
  await store.batches.end(batch.id, endMs)
  const end = replayDay(trace, { plan: batch.plan, vessel: null, lagS: null }, () => {})
  const outcomes = stageOutcomes(end.state, REPLAY_POT, end.endMs)
  const runs = (await store.batches.get(batch.id))?.stages ?? []
  for (const run of runs) {
    const outcome = outcomes.find((o) => o.id === run.stageId && o.startedMs === run.startedMs)
    if (outcome !== undefined) await store.batches.setOutcome(run.id, outcome)
  }
}

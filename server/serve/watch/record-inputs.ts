import type { PotBelief } from '#core/bath/pot-belief'
import type { StoveInput } from '#core/watch/stove-input'
import type { StoredBatch } from '../../store/batches.ts'
import type { Store } from '../../store/store.ts'
import { potSetup } from './pot-setup.ts'

/** Silence is an event too: between two inputs there is a tick at least every second. */
const TICK_MS = 1000

export interface RecordStretch {
  readonly fromMs: number
  readonly toMs: number
  /** The batches whose stages belong to it. */
  readonly batches: readonly StoredBatch[]
  /** Only these pots; all when left out. */
  readonly potIds?: readonly string[]
  readonly lagSOf: (probe: string) => number | null
  /** What was learned of a pot on its burner. */
  readonly beliefOf: (potId: string) => PotBelief | null
}

/** The record of a stretch as the watch would have been told it, in time order, ticks included. */
export async function recordInputs(store: Store, stretch: RecordStretch): Promise<readonly StoveInput[]> {
  const pots = (await store.pots.list()).filter((pot) => stretch.potIds?.includes(pot.id) ?? true)
  const assignments = (await store.pots.assignments(stretch.fromMs)).filter((a) =>
    pots.some((pot) => pot.id === a.potId),
  )
  const setups = pots.map((pot): StoveInput => {
    const lagS = pot.probe === null ? null : stretch.lagSOf(pot.probe)
    const setup = potSetup(pot, lagS, stretch.beliefOf(pot.id))
    return { kind: 'pot', atMs: stretch.fromMs, potId: pot.id, pot: setup }
  })
  const others = [
    ...assignments.flatMap((a) => assignmentInputs(a, stretch)),
    ...(await batchInputs(
      store,
      stretch,
      pots.map((pot) => pot.id),
    )),
    ...(await readingInputs(store, stretch, new Set(assignments.map((a) => a.probe)))),
  ]
  return withTicks([...setups, ...others.sort(byTime)], stretch.toMs)
}

/** Of one moment: batches and assignments first, then events, readings last. */
const RANK: Readonly<Record<StoveInput['kind'], number>> = {
  pot: 0,
  'pot-gone': 0,
  bridge: 0,
  assign: 1,
  batch: 2,
  event: 3,
  reading: 4,
  tick: 5,
}

const byTime = (a: StoveInput, b: StoveInput): number => a.atMs - b.atMs || RANK[a.kind] - RANK[b.kind]

function assignmentInputs(
  a: {
    readonly probe: string
    readonly potId: string
    readonly fromMs: number
    readonly toMs: number | null
  },
  { fromMs, toMs }: RecordStretch,
): readonly StoveInput[] {
  const input = (use: 'on' | 'off', atMs: number): StoveInput => {
    return { kind: 'assign', atMs, probe: a.probe, potId: a.potId, use }
  }
  const off = a.toMs !== null && a.toMs <= toMs ? [input('off', Math.max(a.toMs, fromMs))] : []
  return a.fromMs > toMs ? [] : [input('on', Math.max(a.fromMs, fromMs)), ...off]
}

async function batchInputs(store: Store, stretch: RecordStretch, potIds: readonly string[]) {
  const put = stretch.batches.flatMap((batch) => putOnPots(batch, stretch))
  const events: StoveInput[] = []
  for (const potId of potIds)
    for (const e of await store.events.ofPot(potId, stretch.fromMs))
      if (e.atMs <= stretch.toMs) events.push({ kind: 'event', atMs: e.atMs, potId, event: e.event })
  return [...put, ...events]
}

/** A batch is put on a pot when its first stage there begins. */
function putOnPots(batch: StoredBatch, stretch: RecordStretch): readonly StoveInput[] {
  const pots = new Map<string, number>()
  for (const run of batch.stages) if (!pots.has(run.potId)) pots.set(run.potId, run.startedMs)
  return [...pots].map(([potId, startedMs]) => ({
    kind: 'batch',
    atMs: Math.max(startedMs, stretch.fromMs),
    potId,
    batchId: batch.id,
    plan: batch.plan,
    dryWeightG: batch.dryWeightG,
  }))
}

async function readingInputs(store: Store, stretch: RecordStretch, probes: ReadonlySet<string>) {
  const inputs: StoveInput[] = []
  for (const probe of probes) {
    const range = { probe, fromMs: stretch.fromMs, toMs: stretch.toMs }
    for (const reading of await store.readings.between(range)) {
      const isSecond = reading.kind === 'temp' && reading.verdict === 'second-value'
      if (!isSecond) inputs.push({ kind: 'reading', atMs: reading.atMs, reading })
    }
  }
  return inputs
}

function withTicks(inputs: readonly StoveInput[], toMs: number): readonly StoveInput[] {
  const ticked: StoveInput[] = []
  let atMs = inputs[0]?.atMs ?? toMs
  const tickUntil = (untilMs: number) => {
    for (; atMs + TICK_MS < untilMs; atMs += TICK_MS) ticked.push({ kind: 'tick', atMs: atMs + TICK_MS })
  }
  for (const input of inputs) {
    tickUntil(input.atMs)
    ticked.push(input)
    atMs = input.atMs
  }
  tickUntil(toMs)
  return ticked
}

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
  /** What was believed of a pot on its burner at a time. */
  readonly beliefOf: (potId: string, atMs: number) => PotBelief | null
}

/** The record of a stretch as the watch would have been told it, in time order, ticks included. */
export async function recordInputs(store: Store, stretch: RecordStretch): Promise<readonly StoveInput[]> {
  const notes = await recordNotes(store, stretch)
  return inOrder(notes, await recordReadings(store, notes, stretch), stretch)
}

/** Everything but the readings, by time: pots as they are, then what was hung, put on and noted in the stretch. */
export async function recordNotes(store: Store, stretch: RecordStretch): Promise<readonly StoveInput[]> {
  const pots = (await store.pots.list()).filter((pot) => stretch.potIds?.includes(pot.id) ?? true)
  const potIds = pots.map((pot) => pot.id)
  const assignments = await store.pots.assignments(stretch.fromMs)
  const setups = pots.map((pot): StoveInput => {
    const lagS = pot.probe === null ? null : stretch.lagSOf(pot.probe)
    const setup = potSetup(pot, lagS, stretch.beliefOf(pot.id, stretch.fromMs))
    return { kind: 'pot', atMs: stretch.fromMs, potId: pot.id, pot: setup }
  })
  const noted = [
    ...assignments.filter((a) => potIds.includes(a.potId)).flatMap((a) => assignmentInputs(a, stretch)),
    ...(await batchInputs(store, stretch, potIds)),
  ]
  return [...setups, ...noted.sort(byTime)]
}

/** The probes that hung in a pot at some time. */
export const probesIn = (notes: readonly StoveInput[]): readonly string[] => [
  ...new Set(notes.flatMap((note) => (note.kind === 'assign' ? [note.probe] : []))),
]

/** The readings of the probes that these notes name; the end of the stretch is not included. */
export async function recordReadings(
  store: Store,
  notes: readonly StoveInput[],
  { fromMs, toMs }: Pick<RecordStretch, 'fromMs' | 'toMs'>,
): Promise<readonly StoveInput[]> {
  const inputs: StoveInput[] = []
  for (const probe of probesIn(notes)) {
    for (const reading of await store.readings.between({ probe, fromMs, toMs })) {
      const isSecond = reading.kind === 'temp' && reading.verdict === 'second-value'
      if (!isSecond) inputs.push({ kind: 'reading', atMs: reading.atMs, reading })
    }
  }
  return inputs
}

/** Notes and readings of a stretch in one line, with its ticks; `lastMs`: the input before them, whose ticks go on. */
export const inOrder = (
  notes: readonly StoveInput[],
  readings: readonly StoveInput[],
  { toMs, lastMs }: { readonly toMs: number; readonly lastMs?: number },
): readonly StoveInput[] => withTicks([...notes, ...readings].sort(byTime), toMs, lastMs)

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

function withTicks(inputs: readonly StoveInput[], toMs: number, lastMs?: number): readonly StoveInput[] {
  const ticked: StoveInput[] = []
  let atMs = lastMs ?? inputs[0]?.atMs ?? toMs
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

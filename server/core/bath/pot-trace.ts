import { believable } from './believable.ts'
import { type Bin, binned, stepOf } from './trace-bins.ts'
import type { Lid } from './pot-model.ts'
import type { PotReading } from './pot-reading.ts'

/** What a person noted at the pot; the words of the trace file are of this shape. */
export type PotEvent =
  | { readonly kind: 'dial'; readonly dial: number }
  | { readonly kind: 'lid'; readonly lid: Lid }
  | {
      readonly kind: 'goods-in' | 'goods-out' | 'stir' | 'top-up' | 'probe-moved' | 'stage' | 'end'
    }

export interface PotTrace {
  /** In time order. */
  readonly readings: readonly PotReading[]
  /** In time order. Before the first word the dial is at 0, the lid on, the goods out. */
  readonly events: readonly { readonly atMs: number; readonly event: PotEvent }[]
  /** The air as measured or known, °C; else the vessel's. */
  readonly surroundingsC?: number
}

/**
 * A stretch of a trace with one setting. `observedC`: the mean reading at its end. `anew`: something was turned,
 * poured, stirred or moved, so the model takes its temperature from the reading here: neither a jump nor what came
 * of an earlier setting's wandering is explained by this one's.
 */
export interface TraceStep {
  readonly dial: number
  readonly lid: Lid
  readonly dtS: number
  readonly goodsIn: boolean
  readonly observedC: number | null
  /** Spread of it that comes from the probe's steps, °C. */
  readonly roughC: number
  readonly anew: boolean
}

/**
 * How long the readings after something was done do not count, s. Under a lid still water lies in layers that turn
 * over once the surface cools (judged).
 */
const SETTLE_S = {
  lid: 300,
  'goods-in': 180,
  'goods-out': 180,
  'top-up': 180,
  'probe-moved': 120,
  stir: 60,
} as const

/** No mean lies across a word of the dyer's, after which the bath goes another way, or across the end of the unrest after it. */
const cutsOf = (words: PotTrace['events']): readonly number[] =>
  words
    .flatMap(({ atMs, event }) =>
      event.kind in SETTLE_S ? [atMs, atMs + 1000 * SETTLE_S[event.kind as keyof typeof SETTLE_S]] : [atMs],
    )
    .sort((a, b) => a - b)

/** Longest step of the model, s. */
const LONGEST_S = 100

type Mark =
  | (Bin & { readonly kind: 'seen' })
  | { readonly atMs: number; readonly kind: 'noted'; readonly event: PotEvent }

/**
 * A trace as steps for the model, about 20…100 s each; empty with fewer than two readings.
 * @param fastest °C a minute that this bath may rise by; more is a probe out of it
 */
export function traceSteps(trace: PotTrace, fastest?: number): readonly TraceStep[] {
  const kept = afterUntold(believable(trace.readings, fastest), trace.events)
  const stepC = stepOf(kept)
  const seen = binned(kept, stepC, cutsOf(trace.events)).map(seenMark)
  if (seen.length < 2) return []
  const fromMs = seen[0]!.atMs
  const untilMs = seen.at(-1)!.atMs
  const words = trace.events
    .filter((entry) => entry.atMs <= untilMs)
    .map((entry): Mark => ({ atMs: Math.max(entry.atMs, fromMs), kind: 'noted', event: entry.event }))
  const marks = [...words, ...seen].sort(
    (a, b) => a.atMs - b.atMs || Number(a.kind === 'seen') - Number(b.kind === 'seen'),
  )
  return marks.reduce(addMark, startOf(fromMs, stepC < COARSE_C)).steps
}

const seenMark = ({ atMs, tempC, roughC }: Bin) => ({ kind: 'seen', atMs, tempC, roughC }) as const

/** A reading within steps like these is a worse place to begin from than the model's own way to it, °C (judged). */
const COARSE_C = 0.2

/** A bath that rises by so much before the first word of its dial was heated by one that nobody noted, °C. */
const UNTOLD_C = 2

/** Without the readings before the first word of the dial if the bath rose in them: what heated it is not known. */
function afterUntold(readings: readonly PotReading[], words: PotTrace['events']): readonly PotReading[] {
  const firstMs = words.find(({ event }) => event.kind === 'dial')?.atMs ?? Number.POSITIVE_INFINITY
  let lowestC = Number.POSITIVE_INFINITY
  for (const { atMs, tempC } of readings) {
    if (atMs >= firstMs) return readings
    lowestC = Math.min(lowestC, tempC)
    if (tempC > lowestC + UNTOLD_C) return readings.filter((reading) => reading.atMs >= firstMs)
  }
  return readings
}

interface Walk {
  readonly steps: TraceStep[]
  readonly atMs: number
  readonly dial: number
  readonly lid: Lid
  readonly goodsIn: boolean
  readonly settledMs: number
  readonly anew: boolean
  /** Whether the model begins anew also where only the dial was turned. */
  readonly dialBegins: boolean
}

const startOf = (atMs: number, dialBegins: boolean): Walk => ({
  steps: [],
  atMs,
  dial: 0,
  lid: 'on',
  goodsIn: false,
  settledMs: atMs,
  anew: true,
  dialBegins,
})

function addMark(walk: Walk, mark: Mark): Walk {
  const { dial, lid, goodsIn, steps } = walk
  const counts = mark.kind === 'seen' && mark.atMs >= walk.settledMs
  const wholeS = (mark.atMs - walk.atMs) / 1000
  const pieces = Math.max(1, Math.ceil(wholeS / LONGEST_S))
  for (let i = 1; i <= pieces; i++) {
    const last = i === pieces && counts
    steps.push({
      dtS: wholeS / pieces,
      dial,
      lid,
      goodsIn,
      observedC: last ? mark.tempC : null,
      roughC: last ? mark.roughC : 0,
      anew: last && walk.anew,
    })
  }
  const after = { ...walk, atMs: mark.atMs, anew: walk.anew && !counts }
  return mark.kind === 'seen' ? after : noted(after, mark.event)
}

function noted(walk: Walk, event: PotEvent): Walk {
  const unsettled = (kind: keyof typeof SETTLE_S) => ({
    ...walk,
    anew: true,
    settledMs: Math.max(walk.settledMs, walk.atMs + SETTLE_S[kind] * 1000),
  })
  switch (event.kind) {
    case 'dial':
      return { ...walk, anew: walk.anew || walk.dialBegins, dial: event.dial }
    case 'lid':
      return event.lid === walk.lid ? walk : { ...unsettled('lid'), lid: event.lid }
    case 'goods-in':
    case 'goods-out':
      return { ...unsettled(event.kind), goodsIn: event.kind === 'goods-in' }
    case 'top-up':
    case 'stir':
    case 'probe-moved':
      return unsettled(event.kind)
    case 'stage':
    case 'end':
      return walk
    default:
      return event satisfies never
  }
}

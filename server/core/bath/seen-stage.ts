import type { SeenStage } from './judge-claim.ts'
import type { Lid } from './pot-model.ts'
import type { PotTrace } from './pot-trace.ts'

/** A stage as it ran. `windowC`, `coolToC`: where it has one. */
export interface RanStage {
  readonly startedMs: number
  readonly endedMs: number
  readonly windowC: readonly [low: number, high: number] | null
  readonly coolToC: number | null
}

/** What a trace of believable readings knows of one of its stages. */
export function seenStage({ readings, events }: PotTrace, stage: RanStage): SeenStage {
  const { startedMs, endedMs } = stage
  const isIn = ({ atMs }: { readonly atMs: number }) => atMs >= startedMs && atMs <= endedMs
  return {
    ...stage,
    readings: readings.filter(isIn),
    touchedMs: touchesOf(events).filter((ms) => ms <= endedMs),
  }
}

/** When the pot was touched in a way that changes its course. What was noted once more as it stood is no touch. */
export function touchesOf(events: PotTrace['events']): readonly number[] {
  let dial: number | null = null
  let lid: Lid = 'on'
  return events.flatMap(({ atMs, event }) => {
    switch (event.kind) {
      case 'dial': {
        const isSame = event.dial === dial
        dial = event.dial
        return isSame ? [] : [atMs]
      }
      case 'lid': {
        const isSame = event.lid === lid
        lid = event.lid
        return isSame ? [] : [atMs]
      }
      case 'goods-in':
      case 'goods-out':
      case 'top-up':
        return [atMs]
      case 'stir':
      case 'probe-moved':
      case 'stage':
      case 'end':
        return []
      default:
        return event satisfies never
    }
  })
}

import type { NotedEvent } from './progress.ts'

const lastGoodsEvent = (events: readonly NotedEvent[]): NotedEvent | undefined =>
  events.findLast(({ event }) => event.kind === 'goods-in' || event.kind === 'goods-out')

/** Are the goods in? Without any word about them they count as in throughout, as in a trace file. */
export const isGoodsIn = (events: readonly NotedEvent[]): boolean =>
  lastGoodsEvent(events)?.event.kind !== 'goods-out'

/** Since when the goods are in, Unix ms; `null` when nobody noted it. Events in order of time. */
export function sinceGoodsInMs(events: readonly NotedEvent[]): number | null {
  const last = lastGoodsEvent(events)
  return last?.event.kind === 'goods-in' ? last.atMs : null
}

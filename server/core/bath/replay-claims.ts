import { fitCooling } from './cooling.ts'
import { GOODS_FACTOR } from './goods-factor.ts'
import { type Goal, forecastPot } from './pot-forecast.ts'
import type { PotBelief } from './pot-belief.ts'
import type { Lid } from './pot-model.ts'
import type { PotEvent, PotTrace } from './pot-trace.ts'
import { type RanStage, touchesOf } from './seen-stage.ts'
import { claimsNow, isNews, type ToldClaim } from './told-claim.ts'

const MIN_MS = 60_000
/** A rate is seen over so long, ms. */
const SEEN_MS = 3 * MIN_MS
/** A live watch speaks at once after a touch, and again when the rate shows what it did, ms. */
const AFTER_MS = [10_000, SEEN_MS] as const
/** Cold goods and water are mixed in after this, ms. */
const MIXED_MS = MIN_MS
const POURED: ReadonlySet<PotEvent['kind']> = new Set(['goods-in', 'goods-out', 'top-up'])
/** A cool-down's own curve speaks after this. */
const COOLING_MS = 60 * MIN_MS

/**
 * What a watch that knew `before` would have said of a stage that nobody watched live: after each touch and an
 * hour into a cool-down. Readings believable and in time order.
 */
export function replayClaims(before: PotBelief, trace: PotTrace, stage: RanStage): readonly ToldClaim[] {
  const said: ToldClaim[] = []
  for (const atMs of momentsOf(trace, stage)) {
    const forecast = forecastAt(before, trace, stage, atMs)
    for (const claim of forecast === null ? [] : claimsNow(forecast, atMs, stage.windowC)) {
      const last = said.findLast(({ kind }) => kind === claim.kind)
      const wasTouched = touchesOf(trace.events).some((ms) => ms > (last?.madeMs ?? 0) && ms <= atMs)
      if (last === undefined || wasTouched || isNews(claim, last)) said.push(claim)
    }
  }
  return said
}

function momentsOf({ events }: PotTrace, { startedMs, endedMs, coolToC }: RanStage): readonly number[] {
  const touches = touchesOf(events).filter((ms) => ms > startedMs && ms < endedMs)
  const begins = [startedMs, ...touches]
  const seen = begins.flatMap((ms, i) =>
    AFTER_MS.map((afterMs) => ms + afterMs).filter((at) => at < (begins[i + 1] ?? endedMs)),
  )
  return coolToC === null ? seen : [...seen, startedMs + COOLING_MS].sort((a, b) => a - b)
}

function forecastAt(belief: PotBelief, trace: PotTrace, stage: RanStage, atMs: number) {
  const seen = bathAt(trace, atMs)
  if (seen === null || atMs >= stage.endedMs) return null
  const { dial, lid, goodsIn } = standingAt(trace, atMs)
  const bath = { ...seen, capacityFactor: goodsIn ? GOODS_FACTOR : 1 }
  const { startedMs, coolToC } = stage
  const points = trace.readings.filter((r) => r.atMs >= startedMs && r.atMs <= atMs)
  const cooling =
    coolToC === null || points.length < 10
      ? null
      : fitCooling(points, { vessel: belief.vessel, lid: lid ?? 'on' })
  const settledSinceMs = touchesOf(trace.events).findLast((ms) => ms <= atMs) ?? null
  return forecastPot({ atMs, belief, bath, dial, lid, settledSinceMs, goal: goalOf(stage), cooling })
}

function goalOf({ windowC, coolToC }: RanStage): Goal {
  if (coolToC !== null) return { kind: 'cool', coolToC }
  return windowC === null ? { kind: 'none' } : { kind: 'window', lowC: windowC[0], highC: windowC[1] }
}

/** Temperature and rate; what was poured in makes a step that is no rate. `null`: too little was seen since. */
function bathAt({ readings, events }: PotTrace, atMs: number) {
  const pouredMs = events.findLast((e) => e.atMs <= atMs && POURED.has(e.event.kind))?.atMs ?? 0
  const sinceMs = Math.max(atMs - SEEN_MS, pouredMs === 0 ? 0 : pouredMs + MIXED_MS)
  const near = readings.filter((r) => r.atMs > sinceMs && r.atMs <= atMs)
  const first = near[0]
  if (first === undefined || near.length < 4) return null
  const mean = near.reduce((sum, r) => sum + r.tempC, 0) / near.length
  const middleMs = near.reduce((sum, r) => sum + (r.atMs - first.atMs), 0) / near.length + first.atMs
  let [up, across] = [0, 0]
  for (const r of near) {
    up += (r.atMs - middleMs) * (r.tempC - mean)
    across += (r.atMs - middleMs) ** 2
  }
  const perMs = across === 0 ? 0 : up / across
  return { waterC: mean + perMs * (atMs - middleMs), rateCPerMin: perMs * MIN_MS }
}

function standingAt({ events }: PotTrace, atMs: number) {
  let dial: number | null = null
  let lid: Lid | null = null
  let goodsIn = false
  for (const entry of events) {
    if (entry.atMs > atMs) break
    if (entry.event.kind === 'dial') dial = entry.event.dial
    if (entry.event.kind === 'lid') lid = entry.event.lid
    if (entry.event.kind === 'goods-in' || entry.event.kind === 'goods-out')
      goodsIn = entry.event.kind === 'goods-in'
  }
  return { dial, lid, goodsIn }
}

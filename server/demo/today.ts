import type { ScriptedChange } from '#core/bath/pot-script'
import type { BathEvent } from '#core/plan/event'
import type { Plan } from '#core/plan/plan'
import { MORDANTED } from './earlier.ts'
import { CUTCH_ON_LINEN, GOLD_ON_SILK, RED_ON_MORDANTED_WOOL } from './plans.ts'
import { type DemoPot, HERON, OTTER, WREN } from './studio.ts'

/** A pot that is under way when the demo starts. Times in seconds from that moment, negative before it. */
export interface PotToday {
  readonly pot: DemoPot
  readonly plan: Plan
  readonly batchTitle: string
  /** The earlier batch that mordanted its goods, by title. */
  readonly prepared?: string
  readonly dryKg: number
  readonly fillC: number
  readonly stages: readonly { readonly atS: number; readonly stageId: string }[]
  readonly script: readonly ScriptedChange[]
}

const min = (minutes: number): number => minutes * 60
const goods = (dryKg: number) => ({ dryKg, waterKg: dryKg * 2, tempC: 25 })

/** Coming up: some minutes before the dial wants turning down, so that there is time to read to which mark. */
const HERON_TODAY: PotToday = {
  pot: HERON,
  plan: RED_ON_MORDANTED_WOOL,
  batchTitle: 'Marl, six skeins, brick rose',
  prepared: MORDANTED,
  dryKg: 0.6,
  fillC: 24,
  stages: [{ atS: min(-39), stageId: 'dye' }],
  script: [
    { atS: min(-38), dial: 8 },
    { atS: min(-25), goodsIn: goods(0.6) },
  ],
}

/** Well into its hold, and somebody has just turned the burner up: it will leave the window by the top. */
const WREN_TODAY: PotToday = {
  pot: WREN,
  plan: GOLD_ON_SILK,
  batchTitle: 'Sedge, four scarves, weld gold',
  dryKg: 0.25,
  fillC: 24,
  stages: [{ atS: min(-63), stageId: 'dye' }],
  script: [
    { atS: min(-62), dial: 5 },
    { atS: min(-51), goodsIn: goods(0.25) },
    { atS: min(-25), dial: 1.5 },
    { atS: -100, dial: 4 },
  ],
}

/** Cooling since the small hours of the afternoon; its probe is lifted out for a look and put back. */
const OTTER_TODAY: PotToday = {
  pot: OTTER,
  plan: CUTCH_ON_LINEN,
  batchTitle: 'Fen, table linen, cutch brown',
  dryKg: 1.1,
  fillC: 24,
  stages: [
    { atS: min(-300), stageId: 'dye' },
    { atS: min(-115), stageId: 'cool' },
  ],
  script: [
    { atS: min(-299), dial: 2.5 },
    { atS: min(-284), goodsIn: goods(1.1) },
    { atS: min(-215), dial: 1 },
    { atS: min(-131), dial: 0.5 },
    { atS: min(-116), dial: 0 },
    { atS: 75, probe: 'out' },
    { atS: 150, probe: 'in' },
  ],
}

export const TODAY: readonly PotToday[] = [WREN_TODAY, HERON_TODAY, OTTER_TODAY]

/** What the dyer wrote down of it before the demo began, by time. */
export function notedSoFar(today: PotToday): readonly { readonly atS: number; readonly event: BathEvent }[] {
  const changes = today.script.filter((change) => change.atS < 0).flatMap(noted)
  const stages = today.stages.map(({ atS, stageId }) => ({ atS, event: { kind: 'stage' as const, stageId } }))
  return [...stages, ...changes].sort((a, b) => a.atS - b.atS)
}

function noted(change: ScriptedChange): { readonly atS: number; readonly event: BathEvent }[] {
  const events: BathEvent[] = []
  if (change.dial !== undefined) events.push({ kind: 'dial', dial: change.dial })
  if (change.goodsIn !== undefined) events.push({ kind: 'goods-in' })
  return events.map((event) => ({ atS: change.atS, event }))
}

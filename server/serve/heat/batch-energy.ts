import { dialStretches, energyCost, energyUsed } from '#core/bath/energy'
import type { PotBelief } from '#core/bath/pot-belief'
import type { BatchEnergy } from '#core/wire/burner'
import type { StoredBatch } from '../../store/batches.ts'
import type { StoredEvent } from '../../store/events.ts'

/** What the burner of a pot took for one batch, from its dial as noted; `null` where no dial was noted. */
export function batchEnergy(
  belief: PotBelief,
  batch: StoredBatch,
  potId: string,
  work: {
    readonly events: readonly StoredEvent[]
    readonly nowMs: number
    readonly pricePerKWh: number | null
  },
): BatchEnergy | null {
  const runs = batch.stages.filter((run) => run.potId === potId)
  const endMs = Math.max(...runs.map((run) => run.endedMs ?? work.nowMs))
  const notes = work.events.flatMap((e) => {
    if (e.struckMs !== null || (e.potId !== null && e.potId !== potId)) return []
    if (e.event.kind === 'dial') return [{ atMs: e.atMs, dial: e.event.dial }]
    // A cool-down is with the heat off, whether somebody noted that or not.
    const stage = e.event.kind === 'stage' ? e.event.stageId : null
    const isCool = batch.plan.stages.some((s) => s.id === stage && s.kind === 'cool')
    return isCool ? [{ atMs: e.atMs, dial: 0 }] : []
  })
  if (runs.length === 0 || notes.length === 0) return null
  const { kWh, fromNameplate } = energyUsed(belief, dialStretches(notes, endMs))
  const cost = work.pricePerKWh === null ? null : energyCost({ kWh, fromNameplate }, work.pricePerKWh)
  return { batchId: batch.id, title: batch.title, kWh, fromNameplate, cost }
}

import { lossW, potModel, tuned } from '#core/bath/pot-model'
import type { PotBelief } from '#core/bath/pot-belief'
import { vesselPhysics } from '#core/bath/vessel-physics'
import { energyKWh } from '#core/batch/cost'
import type { StageRun } from '#core/wire/records'

/**
 * What it takes to warm a pot to the top of each heated stage and keep it there under its lid, kWh; for a batch whose
 * dial nobody noted. From the temperature of the room, good to a third. 0 when nothing was heated.
 */
export function warmingEnergy(belief: PotBelief, runs: readonly StageRun[], nowMs: number): number {
  const { capacityJPerC, efficiency01, roomC } = vesselPhysics(belief.vessel)
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const heated = runs.flatMap((run) => {
    const topC = run.outcome?.bins === null ? null : (run.outcome?.maxC ?? null)
    return topC === null || topC <= roomC ? [] : [{ topC, heldMs: (run.endedMs ?? nowMs) - run.startedMs }]
  })
  return heated.reduce(
    (sum, { topC, heldMs }) =>
      sum +
      energyKWh({
        capacityKJPerC: capacityJPerC / 1000,
        riseC: topC - roomC,
        lossW: lossW(pot, 'on', roomC, topC),
        heldMin: heldMs / 60_000,
        share01: efficiency01,
      }),
    0,
  )
}

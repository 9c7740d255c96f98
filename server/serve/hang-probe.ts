import type { StoveInput } from '#core/watch/stove-input'
import { Problem } from './http/problem.ts'
import type { Studio } from './studio.ts'

/** A misspelt probe would leave a bath unwatched. */
export function refuseUnknownProbe({ probes }: Pick<Studio, 'probes'>, probe: string): void {
  if (probes.has(probe)) return
  const known = probes.names()
  const others = known.length === 0 ? 'none is known yet' : `known are ${known.slice(0, 20).join(', ')}`
  throw new Problem(
    404,
    `there is no probe "${probe}": nothing has come from it and no settings name it; ${others}. Let it send once, or add it on the probes page`,
  )
}

/** Writes down that this probe hangs in this pot from then on; what the watch must hear of it. */
export async function hangProbe(
  studio: Pick<Studio, 'probes' | 'recorder' | 'store'>,
  hung: { readonly probe: string; readonly potId: string; readonly atMs: number },
): Promise<readonly StoveInput[]> {
  const { probe, potId, atMs } = hung
  refuseUnknownProbe(studio, probe)
  await studio.recorder.write(() => studio.store.pots.assign(probe, potId, atMs))
  return [{ kind: 'assign', atMs, probe, potId, use: 'on' }]
}

/** Writes down that these probes hang nowhere. Not while a stage runs where one does: it would be blind. */
export async function takeProbesOut(
  { store, recorder, stove, clock }: Pick<Studio, 'store' | 'recorder' | 'stove' | 'clock'>,
  probes: ReadonlySet<string>,
): Promise<readonly StoveInput[]> {
  const atMs = clock.nowMs()
  const hung = (await store.pots.assignments(atMs)).filter((a) => a.toMs === null && probes.has(a.probe))
  const busy = hung.map((a) => stove.find(a.potId)).find((on) => on !== undefined && on.batch !== null)
  if (busy !== undefined)
    throw new Problem(
      409,
      `a stage runs in ${busy.pot.title}, where it hangs; end its batch, or hang the probe elsewhere first`,
    )
  for (const { probe, potId } of hung) await recorder.write(() => store.pots.unassign(probe, potId, atMs))
  return hung.map(({ probe, potId }) => ({ kind: 'assign', atMs, probe, potId, use: 'off' }))
}

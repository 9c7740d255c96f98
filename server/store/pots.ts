import type { Vessel } from '#core/bath/vessel'
import type { PotRecord } from '#core/wire/records'

/** From `fromMs` on this probe hung in this pot, until `toMs` (`null`: still). */
export interface Assignment {
  readonly probe: string
  readonly potId: string
  readonly fromMs: number
  readonly toMs: number | null
}

export interface PotStore {
  list(): Promise<readonly PotRecord[]>
  get(id: string): Promise<PotRecord | null>
  add(pot: { readonly id: string; readonly title: string; readonly vessel: Vessel | null }): Promise<void>
  /** Other litres hold for the stage that runs in it, too; what has ended keeps its own. */
  change(id: string, to: { readonly title: string; readonly vessel: Vessel | null }): Promise<void>
  /** The pot leaves the stove; its batches keep it by name. */
  remove(id: string, atMs: number): Promise<void>
  /** A probe is in one pot at a time: where it was before, it ends there. */
  assign(probe: string, potId: string, fromMs: number): Promise<void>
  unassign(probe: string, potId: string, toMs: number): Promise<void>
  /** Assignments that touch the time from `sinceMs` on, oldest first. */
  assignments(sinceMs: number): Promise<readonly Assignment[]>
}

/** A probe that has been heard of, by a reading or in the settings. */
export interface ProbeRecord {
  readonly name: string
  readonly firstSeenMs: number
  /** `false`: it turned up by itself and nobody has said yet that it belongs here. */
  readonly accepted: boolean
  /** How the bridge finds it, as set on the page; `null` for one that is set in the file or sends by itself. */
  readonly setting: unknown
}

/** A dated correction as it was entered; `body` is checked by `core/wire` and kept for ever. */
export interface CorrectionRecord {
  readonly id: number
  readonly probe: string
  /** Valid for readings from this time on, Unix ms UTC. */
  readonly fromMs: number
  readonly madeMs: number
  readonly who: string | null
  readonly body: unknown
}

export interface ProbeStore {
  list(): Promise<readonly ProbeRecord[]>
  /** Makes the probe known; one that is known stays as it is. */
  see(name: string, atMs: number, accepted: boolean): Promise<void>
  accept(name: string): Promise<void>
  /** `null` takes the setting away; the probe and its readings stay. */
  setSetting(name: string, setting: unknown, atMs: number): Promise<void>
  addCorrection(correction: Omit<CorrectionRecord, 'id'>): Promise<CorrectionRecord>
  /** All corrections of all probes, oldest first. */
  corrections(): Promise<readonly CorrectionRecord[]>
}

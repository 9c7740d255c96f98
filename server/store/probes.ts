/** A probe that has been heard of, by a reading or in the settings. */
export interface ProbeRecord {
  readonly name: string
  readonly firstSeenMs: number
  /** `false`: it turned up by itself and nobody has said yet that it belongs here. */
  readonly accepted: boolean
  /** How the bridge finds it, as set on the page; `null` for one that is set in the file or sends by itself. */
  readonly setting: unknown
  /** When its setting was taken away on the page; `null` when there is one, or never was. */
  readonly removedMs: number | null
}

/** `setting` is what is obeyed, `noted` what the history shows of it: no secrets. `null` takes the setting away. */
export interface ProbeChange {
  readonly setting: unknown
  readonly noted: object | null
  readonly atMs: number
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
  /** The probe and its readings stay, whatever is set. */
  setSetting(name: string, change: ProbeChange): Promise<void>
  /** What was noted of its settings, oldest first. */
  changes(name: string): Promise<readonly { readonly atMs: number; readonly setting: object | null }[]>
  addCorrection(correction: Omit<CorrectionRecord, 'id'>): Promise<CorrectionRecord>
  /** All corrections of all probes, oldest first. */
  corrections(): Promise<readonly CorrectionRecord[]>
}

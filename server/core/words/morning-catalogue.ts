import type { NoticeName } from '../plan/alarm-names.ts'

/** The parts of a morning sentence, already worded. */
export interface MorningAlarmParts {
  readonly pot: string
  readonly name: string
  readonly times: number
  readonly since: string
  /** `null`: it stands still. */
  readonly over: string | null
  readonly peak: string | null
  readonly limit: string | null
  readonly isAcknowledged: boolean
}

/** All morning sentences of one language. */
export interface MorningCatalogue {
  alarm(p: MorningAlarmParts): string
  holdShort(pot: string, stage: string, required: string, hold: string): string
  cooledUnlikePlan(pot: string, times: string, isFaster: boolean, reason: string | null): string
  cooled(pot: string, coolTo: string, at: string | null, last: string | null): string
  gap(pot: string, from: string, to: string, lasted: string): string
  notice(pot: string, notice: NoticeName, at: string): string
  probeCheckDue(probe: string, isNever: boolean): string
}

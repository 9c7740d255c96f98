import type { NoticeName } from '../../plan/alarm-names.ts'
import type { PotView } from '../pot-view.ts'
import type { StageNotes } from '../stage-notes.ts'
import type { TurnDown } from '../happening.ts'

export interface Told {
  readonly notice: NoticeName
  readonly dueMs?: number
  readonly sinceMs?: number
  readonly holdFollows?: true
  readonly turn?: TurnDown
}

/** One thing that is told: what is remembered now, and what there is to tell. */
export interface Noted {
  readonly notes: StageNotes
  readonly told: readonly Told[]
}

export type NoticeRule = (view: PotView, notes: StageNotes) => Noted

export const nothing = (notes: StageNotes): Noted => ({ notes, told: [] })

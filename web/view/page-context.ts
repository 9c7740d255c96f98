import type { ReadonlySignal } from '@preact/signals'
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { BathEvent } from '#core/plan/event'
import type { DeviceSettings } from '../state/device-settings.ts'
import type { PageState } from '../state/page-state.ts'
import type { ServerRequests } from '../state/requests.ts'
import type { TraceStore } from '../state/trace-store.ts'
import type { RhythmName } from '../device/rhythms.ts'
import type { Reader } from './words/reader.ts'

/** What a component may read and do. Made once, in `main.tsx`. */
export interface Page {
  readonly state: PageState
  readonly reader: ReadonlySignal<Reader>
  readonly traces: TraceStore
  readonly requests: ServerRequests
  readonly acts: PageActs
}

/** A pot, and the batch in it where there is one. */
export interface NotedAt {
  readonly potId: string
  readonly batchId: number | null
}

/** What a person can do; each that may fail says so in `state.refusal`. */
export interface PageActs {
  /** A person is on the way: answers all of these alarms. */
  acknowledge(ids: readonly number[]): Promise<void>
  shelve(ids: readonly number[], minutes: number): Promise<void>
  /** `agoMin`: it happened so many minutes before now. What stands in the record then; `null` when refused. */
  note(at: NotedAt, event: BathEvent, agoMin: number): Promise<{ readonly id: number } | null>
  changeSettings(change: Partial<DeviceSettings>): void
  switchSound(on: boolean): Promise<void>
  tryRhythm(rhythm: RhythmName): void
  /** Sounds a test by every means; this page sounds with it. */
  startTest(): Promise<void>
  /** The person here has heard the test. */
  heardTest(): void
}

export const PageContext = createContext<Page | null>(null)

export function usePage(): Page {
  const page = useContext(PageContext)
  if (page === null) throw new Error('usePage needs the page context around it')
  return page
}

/** The words and numbers for the person at this device. */
export const useWords = (): Reader => usePage().reader.value

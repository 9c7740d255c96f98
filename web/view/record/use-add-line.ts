import type { RecordKind } from '#core/batch/record-line'
import { usePage } from '../page-context.ts'

export interface LineToAdd {
  readonly kind: RecordKind
  readonly body: object
  /** The line that it corrects or takes back. */
  readonly replaces?: number
  readonly atMs?: number
}

/** Adds a line to a batch's record under this person's name; true when it stands, else the refusal is shown. */
export function useAddLine(batchId: number): (line: LineToAdd) => Promise<boolean> {
  const { requests, state } = usePage()
  return async (line) => {
    const { who } = state.settings.peek()
    const path = `/api/batches/${batchId}/entries`
    const added = await requests.ask('POST', path, { ...line, ...(who === '' ? {} : { who }) })
    if (!added.ok) state.refusal.value = added.why
    return added.ok
  }
}

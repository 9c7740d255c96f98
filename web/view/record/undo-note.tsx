import { useState } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'

/** Wet hands slip: what was just noted can be taken back. It stays on record, struck through. */
export function UndoNote(props: { readonly batchId: number; readonly eventId: number }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const [undone, setUndone] = useState(false)

  async function undo(): Promise<void> {
    const { who } = state.settings.peek()
    const path = `/api/batches/${props.batchId}/events/${props.eventId}/strike`
    const struck = await requests.ask('POST', path, { who: who === '' ? null : who })
    if (struck.ok) setUndone(true)
    else state.refusal.value = struck.why
  }
  return undone ? (
    <p role="status">{w.record.now.undone}</p>
  ) : (
    <button type="button" class="button" onClick={() => void undo()}>
      {w.record.now.undo}
    </button>
  )
}

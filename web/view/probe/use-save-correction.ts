import { useState } from 'preact/hooks'
import { usePage } from '../page-context.ts'

/** Keeps a correction with who entered it; what the server refuses is told in its own sentence. */
export function useSaveCorrection(probe: string, onDone: () => void) {
  const { requests, state } = usePage()
  const [refusal, refuse] = useState<string | null>(null)
  async function save(correction: object): Promise<void> {
    const who = state.settings.peek().who.trim()
    const body = { ...correction, ...(who === '' ? {} : { who }) }
    const done = await requests.ask('POST', `/api/probes/${encodeURIComponent(probe)}/corrections`, body)
    if (done.ok) onDone()
    else refuse(done.why)
  }
  return { save, refusal, refuse }
}

import type { PageState } from './page-state.ts'
import { type Sounding, soundingOf } from './sounding.ts'

/**
 * What this page should sound now. Reads the signals, so that an effect around it runs in the very event
 * that changed one. The clock is only looked at, never waited for: a tone belongs to a message.
 */
export function soundingNow(state: PageState): Sounding {
  const stove = state.stove.value
  const sounding = soundingOf(stove, state.nowMs.peek())
  // The sound may have just been switched on: what stands must then be heard.
  if (!state.soundOn.value) return { kind: 'quiet' }
  if (stove.silent && state.hushed.value) return { kind: 'quiet' }
  if (sounding.kind !== 'loop' && state.testing.value) return { kind: 'loop', rhythm: 'at-once' }
  return sounding
}

import type { BathEvent } from '#core/plan/event'
import type { Reader } from './reader.ts'

/** The name of what was noted: on its button, in the line that confirms it and in the log. */
export function eventName(event: BathEvent, { w: { stove }, f }: Reader): string {
  switch (event.kind) {
    case 'stage':
      return stove.startStage(event.stageId)
    case 'dial':
      return event.dial === 0 ? stove.dialOffNoted : stove.dialTo(f.dial(event.dial))
    case 'lid':
      return event.lid === 'on' ? stove.act['lid-on'] : stove.act['lid-off']
    default:
      return stove.act[event.kind]
  }
}

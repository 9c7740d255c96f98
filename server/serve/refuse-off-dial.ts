import type { BathEvent } from '#core/plan/event'
import type { PotRecord } from '#core/wire/records'
import { Problem } from './http/problem.ts'

/** A mark that the burner does not have would be learned from as if it had. */
export function refuseOffDial({ title, vessel }: PotRecord, event: BathEvent): void {
  const most = vessel?.burner.dialMax
  if (event.kind !== 'dial' || most === undefined || event.dial <= most) return
  throw new Problem(400, `dial:${event.dial} is not on the burner of ${title}; allowed is 0 to ${most}`)
}

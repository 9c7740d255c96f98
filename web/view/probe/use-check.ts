import { useEffect, useRef, useState } from 'preact/hooks'
import { type CheckPlace, type ProbeCheck, startCheck, stepCheck } from '#core/measure/probe-check'
import { checkReading } from '../../state/check-reading.ts'
import { usePage } from '../page-context.ts'

export interface RunningCheck {
  readonly check: ProbeCheck | null
  begin(place: CheckPlace, expectedC: number): void
  stop(): void
}

/** Runs a check of one probe on its live readings, for as long as the sheet is open. */
export function useCheck(probe: string): RunningCheck {
  const { state } = usePage()
  const [check, setCheck] = useState<ProbeCheck | null>(null)
  const now = useRef<ProbeCheck | null>(null)
  const show = (next: ProbeCheck | null) => {
    now.current = next
    setCheck(next)
  }
  useEffect(
    () =>
      state.heard.subscribe((heard) => {
        if (heard?.probe === probe && now.current !== null) show(stepCheck(now.current, checkReading(heard)))
      }),
    [probe],
  )
  return {
    check,
    begin: (place, expectedC) => show(startCheck(place, expectedC, state.nowMs.peek())),
    stop: () => show(null),
  }
}

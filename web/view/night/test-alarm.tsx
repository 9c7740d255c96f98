import { useState } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'

/** The bedtime test: everything sounds as for a real alarm, here until the person says that it was heard. */
export function TestAlarm() {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  const [heardMs, setHeardMs] = useState<number | null>(null)
  if (state.testing.value)
    return (
      <div class="test-alarm" role="status">
        <p>{w.stove.testRunning}</p>
        <p>{w.stove.hearers(state.stove.value.listeners)}</p>
        <button
          type="button"
          class="button big"
          onClick={() => {
            acts.heardTest()
            setHeardMs(state.nowMs.peek())
          }}
        >
          {w.stove.testHeard}
        </button>
      </div>
    )
  return (
    <div class="test-alarm">
      <button type="button" class="button" onClick={() => void acts.startTest()}>
        {w.stove.testAlarm}
      </button>
      <p>{heardMs === null ? w.stove.testAlarmHelp : w.stove.testGood(f.clock(heardMs))}</p>
    </div>
  )
}

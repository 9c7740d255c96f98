import { usePage, useWords } from '../page-context.ts'

/** Somebody tests the alarm: whoever is at this page says so, wherever in the page they are. */
export function TestStrip() {
  const { w } = useWords()
  const { state, acts } = usePage()
  if (!state.testing.value || state.route.value.kind === 'night') return null
  return (
    <div class="strip soon" role="alert">
      <span>{w.tell.testStrip}</span>
      <button type="button" class="button" onClick={() => acts.heardTest()}>
        {w.tell.heard}
      </button>
    </div>
  )
}

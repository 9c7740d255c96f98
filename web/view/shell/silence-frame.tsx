import { usePage, useWords } from '../page-context.ts'

/** Red all round: the server is dead or stuck, so nothing on the page may be taken for a good bath. */
export function SilenceFrame() {
  const { w } = useWords()
  const { state } = usePage()
  if (!state.stove.value.silent) return null
  return (
    <div class="silence-frame" role="alert">
      <div class="silence-text">
        <h2>{w.shell.silent}</h2>
        <p>{w.shell.silentDo}</p>
        <button type="button" class="button big" onClick={() => (state.hushed.value = true)}>
          {w.shell.silentHush}
        </button>
      </div>
    </div>
  )
}

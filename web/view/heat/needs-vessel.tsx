import { useWords } from '../page-context.ts'

/** Of a pot without litres and dial nothing can be said. */
export function NeedsVessel() {
  const { w } = useWords()
  return (
    <section class="narrow empty">
      <h1>{w.heat.noVessel}</h1>
      <a class="button" href="#/probes">
        {w.heat.editPots}
      </a>
    </section>
  )
}

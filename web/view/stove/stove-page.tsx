import { usePage, useWords } from '../page-context.ts'
import { NoticeList } from './notice-list.tsx'
import { PotCard } from './pot-card.tsx'
import { PotWhole } from './pot-whole.tsx'

/** All pots at once: one fills the screen, six fit on it. */
export function StovePage() {
  const { w } = useWords()
  const pots = usePage().state.stove.value.pots
  if (pots === null) return <p class="hint">{w.stove.connecting}</p>
  const first = pots[0]
  if (first === undefined) return <EmptyStove />
  return (
    <>
      {pots.length === 1 ? (
        <PotWhole pot={first} />
      ) : (
        <>
          <h1 class="visually-hidden">{w.stove.title}</h1>
          <div class={pots.length > 3 ? 'stove dense' : 'stove'} data-pots={pots.length}>
            {pots.map((pot) => (
              <PotCard key={pot.potId} pot={pot} />
            ))}
          </div>
          <p class="caution">{w.stove.advice}</p>
        </>
      )}
      <NoticeList />
    </>
  )
}

function EmptyStove() {
  const { w } = useWords()
  return (
    <section class="narrow empty">
      <h1>{w.stove.empty}</h1>
      <p>{w.stove.emptyHelp}</p>
      <a class="button big" href="#/probes">
        {w.stove.addPot}
      </a>
    </section>
  )
}

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

/** From nothing to a bath that is watched, in the order in which one needs the other. */
const FIRST_STEPS = [
  ['probe', '#/probes'],
  ['pot', '#/probes'],
  ['plan', '#/plans/new'],
  ['batch', '#/start'],
] as const

function EmptyStove() {
  const { w } = useWords()
  return (
    <section class="narrow empty">
      <h1>{w.stove.empty}</h1>
      <p>{w.stove.emptyHelp}</p>
      <ol class="first-steps">
        {FIRST_STEPS.map(([step, href]) => (
          <li key={step}>
            <a href={href}>{w.stove.firstSteps[step].what}</a>
            <p class="row-more">{w.stove.firstSteps[step].how}</p>
          </li>
        ))}
      </ol>
    </section>
  )
}

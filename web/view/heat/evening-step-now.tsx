import type { EveningAnswer, EveningRunning } from '#core/wire/burner'
import { dialMarkText } from '#core/words/numbers'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'

/** What to set now, as large as it is important; then how far the step has come. */
export function EveningStepNow(props: {
  readonly answer: EveningAnswer
  readonly running: EveningRunning
  readonly onSet: () => void
}) {
  const { w, f } = useWords()
  const { acts } = usePage()
  const { running, answer } = props
  const { dial, lid } = running.set
  const dialWords = dial === 0 ? w.heat.turnOff : w.heat.turnTo(dialMarkText(dial, f.person))
  const at = { potId: answer.potId, batchId: null }
  const set = async (): Promise<void> => {
    const isNoted = await acts.note(at, { kind: 'dial', dial }, 0)
    if (isNoted) await acts.note(at, { kind: 'lid', lid }, 0)
    props.onSet()
  }
  return (
    <section class={`panel step-now ${running.isSet ? 'is-set' : 'to-set'}`} aria-live="polite">
      <p class="row-more">{w.heat.stepNo(running.stepsDone + 1, running.stepsInAll)}</p>
      <h2>{dialWords}</h2>
      <p class="lid-word">{w.heat.lidShould[lid]}</p>
      <p class="water-now">
        {w.heat.water}: <strong>{answer.tempC === null ? '– –' : f.temp(answer.tempC)}</strong>
      </p>
      {running.isSet ? (
        <>
          <p class="set-line">
            <Mark name="done" />
            {w.heat.setNow(dialMarkText(dial, f.person), w.heat.lidShould[lid])}
          </p>
          <p>{running.leftMin <= 0 ? w.heat.soonOver : w.heat.leftMost(running.leftMin)}</p>
          <p>{running.isEnough ? w.heat.knowsEnough : w.heat.learnsYet}</p>
        </>
      ) : (
        <>
          <button type="button" class="button big" onClick={() => void set()}>
            {w.heat.isSet}
          </button>
          <p class="row-more">{w.heat.waits}</p>
        </>
      )}
    </section>
  )
}

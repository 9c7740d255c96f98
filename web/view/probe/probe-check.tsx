import { useState } from 'preact/hooks'
import { correctionOf } from '#core/measure/check-correction'
import type { CheckPoint } from '#core/measure/check-point'
import type { CheckPlace, ProbeCheck as Check } from '#core/measure/probe-check'
import type { ProbeInfo } from '../../state/requests.ts'
import { typedNumber } from '../../state/typed-number.ts'
import { Choice } from '../part/choice.tsx'
import { TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { useCheck } from './use-check.ts'
import { useSaveCorrection } from './use-save-correction.ts'

/** Leads through ice water and boiling point, and makes a correction of what settled there. */
export function ProbeCheck(props: { readonly probe: ProbeInfo; readonly onDone: () => void }) {
  const { w, f } = useWords()
  const { state } = usePage()
  const running = useCheck(props.probe.name)
  const [points, setPoints] = useState<readonly CheckPoint[]>([])
  const { save, refusal, refuse } = useSaveCorrection(props.probe.name, props.onDone)
  const { check } = running
  const all = check?.kind === 'settled' ? [...points, pointOf(check)] : points

  function use(): void {
    const made = correctionOf(all, state.nowMs.peek())
    if (made.ok) void save(made.correction)
    else refuse(w.said(made.why))
  }
  return (
    <div class="form-part">
      <p>{w.probe.checkHelp}</p>
      {check === null || check.kind !== 'waiting' ? (
        <>
          <div role="status">{check !== null && <Verdict check={check} />}</div>
          <NextCheck
            onBegin={(place, expectedC) => {
              setPoints(all)
              running.begin(place, expectedC)
            }}
          />
        </>
      ) : (
        <Waiting check={check} onGiveUp={() => running.stop()} />
      )}
      {all.length > 0 && (
        <>
          <h3>{w.probe.checksSoFar}</h3>
          <ul>
            {all.map(({ rawC, trueC }) => (
              <li key={`${rawC} ${trueC}`}>{w.probe.saysWhere(f.temp(rawC), f.temp(trueC))}</li>
            ))}
          </ul>
          <button type="button" class="button main" onClick={use}>
            {w.probe.saveChecks(all.length)}
          </button>
        </>
      )}
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
    </div>
  )
}

const pointOf = ({ rawC, expectedC }: Extract<Check, { kind: 'settled' }>): CheckPoint => ({
  rawC,
  trueC: expectedC,
})

function NextCheck(props: { readonly onBegin: (place: CheckPlace, expectedC: number) => void }) {
  const { w, f } = useWords()
  const { unit } = usePage().state.settings.value
  const studio = useAnswer<{ readonly boilC: number }>('/api/studio')
  const [place, setPlace] = useState<CheckPlace>('ice')
  const [typed, setTyped] = useState('')
  const boilC = studio.asked?.ok ? studio.asked.value.boilC : null
  const expectedC =
    place === 'ice' ? 0 : place === 'boiling' ? boilC : typedNumber(typed, 'C', unit, undefined)
  return (
    <>
      <Choice
        label={w.probe.check}
        value={place}
        options={(['ice', 'boiling', 'reference'] as const).map((p) => [p, w.probe.places[p]] as const)}
        onValue={setPlace}
      />
      <p>{w.probe.placeHelp[place]}</p>
      {place === 'reference' && (
        <TextField label={w.probe.expected} value={typed} kind="number" unit={f.unit} onValue={setTyped} />
      )}
      <div class="buttons">
        <button
          type="button"
          class="button"
          disabled={expectedC === null}
          onClick={() => expectedC !== null && props.onBegin(place, expectedC)}
        >
          {w.probe.checkStart}
        </button>
      </div>
    </>
  )
}

function Waiting(props: {
  readonly check: Extract<Check, { kind: 'waiting' }>
  readonly onGiveUp: () => void
}) {
  const { w, f } = useWords()
  const last = props.check.recent.at(-1)
  return (
    <>
      <p role="status">{w.probe.waitsFor[props.check.waitsFor]}</p>
      {last !== undefined && <p>{w.probe.saysNow(f.temp(last.rawC))}</p>}
      <div class="buttons">
        <button type="button" class="button quiet" onClick={props.onGiveUp}>
          {w.probe.checkGiveUp}
        </button>
      </div>
    </>
  )
}

function Verdict({ check }: { readonly check: Exclude<Check, { kind: 'waiting' }> }) {
  const { w, f } = useWords()
  return check.kind === 'settled' ? (
    <p>{w.probe.settled(f.temp(check.rawC), f.temp(check.expectedC))}</p>
  ) : (
    <p class="problem">{w.probe.checkRefused(w.said(check.why))}</p>
  )
}

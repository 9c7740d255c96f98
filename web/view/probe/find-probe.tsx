import { useEffect, useRef, useState } from 'preact/hooks'
import type { Candidate } from '#core/wire/bridge-link'
import { usePage, useWords } from '../page-context.ts'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { ProbeForm } from './probe-form.tsx'
import type { ProbeFormStart } from './use-probe-draft.ts'

type FoundStart = Extract<ProbeFormStart, { where: string }>

const AGAIN_MS = 1_500

/** Lists what is plugged in with live values: warm one probe in the hand and see which number climbs. */
export function FindProbe({ onChange }: { readonly onChange: () => void }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const [finding, setFinding] = useState(false)
  const [adding, setAdding] = useState<FoundStart | null>(null)
  async function find(): Promise<void> {
    const done = await requests.ask('POST', '/api/find-probe', { find: true })
    if (!done.ok) state.refusal.value = done.why
    setFinding(done.ok)
  }
  // A person who leaves the page has stopped looking.
  useEffect(
    () => (finding ? () => void requests.ask('POST', '/api/find-probe', { find: false }) : undefined),
    [finding],
  )
  return (
    <section class="form-part">
      <h3>{w.probe.find}</h3>
      <p>{w.probe.findHelp}</p>
      <div class="buttons">
        <button type="button" class="button" onClick={() => (finding ? setFinding(false) : void find())}>
          {finding ? w.probe.findClose : w.probe.findOpen}
        </button>
        <button type="button" class="button" onClick={() => setAdding({ kind: 'serial-lines', where: '' })}>
          {w.probe.addProbe}
        </button>
      </div>
      {finding && <Candidates onAdd={setAdding} />}
      {adding !== null && (
        <ProbeForm
          key={adding.where}
          start={adding}
          onDone={(saved) => {
            setAdding(null)
            if (saved) onChange()
          }}
        />
      )}
    </section>
  )
}

interface Found {
  readonly finding: boolean
  readonly candidates: readonly Candidate[]
}

function Candidates({ onAdd }: { readonly onAdd: (start: FoundStart) => void }) {
  const { w } = useWords()
  const found = useAnswer<Found>('/api/find-probe', AGAIN_MS)
  const first = useRef(new Map<string, number>())
  return (
    <Show of={found}>
      {({ candidates }) =>
        candidates.length === 0 ? (
          <p class="hint">{w.probe.findNothing}</p>
        ) : (
          <ul class="row-list">
            {candidates.map((candidate) => (
              <CandidateRow
                key={candidate.where}
                candidate={candidate}
                firstNumber={firstOf(first.current, candidate)}
                onAdd={onAdd}
              />
            ))}
          </ul>
        )
      }
    </Show>
  )
}

/** The first number that was seen at a place: climbing is told against it. */
function firstOf(seen: Map<string, number>, { where, lastNumber }: Candidate): number | null {
  if (lastNumber !== null && !seen.has(where)) seen.set(where, lastNumber)
  return seen.get(where) ?? null
}

/** So much more than when the search began is a warm hand, in the probe's own unit. */
const CLIMBED = 1

const KIND_OF = { serial: 'serial-lines', mqtt: 'mqtt', 'one-wire': 'one-wire-files' } as const

function CandidateRow(props: {
  readonly candidate: Candidate
  readonly firstNumber: number | null
  readonly onAdd: (start: FoundStart) => void
}) {
  const { w, f } = useWords()
  const { candidate, firstNumber } = props
  const { lastNumber } = candidate
  const moved = lastNumber === null || firstNumber === null ? 0 : lastNumber - firstNumber
  return (
    <li>
      <div class="row-main">
        <strong>{candidate.where}</strong>
        <p class="row-more">{candidate.about}</p>
        {candidate.trouble !== null && <p class="field-error">{w.said(candidate.trouble)}</p>}
        {candidate.lastText !== null && <code>{candidate.lastText}</code>}
      </div>
      <p class="probe-temp">
        {lastNumber === null ? '– –' : f.amount(lastNumber, 2)}{' '}
        {moved > CLIMBED && <span class="climbing">↑ {w.probe.climbing}</span>}
      </p>
      {candidate.usedBy === null ? (
        <button
          type="button"
          class="button"
          onClick={() =>
            props.onAdd({
              kind: KIND_OF[candidate.kind],
              where: candidate.where,
              sample: candidate.lastText,
            })
          }
        >
          {w.probe.addThis}
        </button>
      ) : (
        <span class="tag">{w.probe.usedBy(candidate.usedBy)}</span>
      )}
    </li>
  )
}

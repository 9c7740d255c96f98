import { useState } from 'preact/hooks'
import type { Correction, LineCorrection } from '#core/measure/correction'
import { lineUncertaintyC } from '#core/measure/fit-line'
import type { ProbeInfo } from '../../state/requests.ts'
import { Dialog } from '../part/dialog.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'
import { CorrectionForm } from './correction-form.tsx'
import { ProbeCheck } from './probe-check.tsx'

/** Two ways to a correction: a check here and now, or what somebody else found. */
export function CorrectProbe(props: { readonly probe: ProbeInfo; readonly onChange: () => void }) {
  const { w } = useWords()
  const [open, setOpen] = useState<'check' | 'form' | null>(null)
  const { probe } = props
  const done = () => {
    setOpen(null)
    props.onChange()
  }
  return (
    <div class="buttons">
      <button
        type="button"
        class="button"
        aria-label={w.probe.checkTitle(probe.title)}
        onClick={() => setOpen('check')}
      >
        {w.probe.check}
      </button>
      <button
        type="button"
        class="button quiet"
        aria-label={w.probe.correctTitle(probe.title)}
        onClick={() => setOpen('form')}
      >
        {w.probe.correct}
      </button>
      {open !== null && (
        <Dialog
          title={open === 'check' ? w.probe.checkTitle(probe.title) : w.probe.correctTitle(probe.title)}
          onClose={() => setOpen(null)}
        >
          {open === 'check' ? (
            <ProbeCheck probe={probe} onDone={done} />
          ) : (
            <CorrectionForm probe={probe} onDone={done} />
          )}
          <PastCorrections probe={probe.name} />
        </Dialog>
      )}
    </div>
  )
}

interface Kept {
  readonly id: number
  readonly fromMs: number
  readonly madeMs: number
  readonly who: string | null
  readonly body: Correction
}

function PastCorrections({ probe }: { readonly probe: string }) {
  const { w, f } = useWords()
  const { asked } = useAnswer<readonly Kept[]>(`/api/probes/${encodeURIComponent(probe)}/corrections`)
  if (asked === null || !asked.ok || asked.value.length === 0) return null
  return (
    <section class="form-part">
      <h3>{w.probe.corrections}</h3>
      <ul>
        {asked.value.map(({ id, fromMs, madeMs, who, body }) => (
          <li key={id}>
            {w.probe.correctionMade(whatOf(body, w, f), f.day(fromMs), who ?? '', f.day(madeMs))}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Both readings of each check, as they were. */
function whatOf(body: Correction, w: Catalogue, f: Format): string {
  const at = ({ rawC, trueC }: { readonly rawC: number; readonly trueC: number }) =>
    w.probe.saysWhere(f.temp(rawC), f.temp(trueC))
  switch (body.kind) {
    case 'offset':
      return body.check === undefined ? f.drop(body.offsetC) : `${f.drop(body.offsetC)} (${at(body.check)})`
    case 'two-point':
      return `${at(body.low)}, ${at(body.high)}`
    case 'line':
      return `${w.probe.correctionLine} (± ${f.drop(hottestUncertaintyC(body))}): ${body.points.map(at).join(', ')}`
    default:
      return body satisfies never
  }
}

/** How sure a line is at its hottest check, where a dye bath is, °C. */
const hottestUncertaintyC = (line: LineCorrection): number =>
  lineUncertaintyC(line, Math.max(...line.points.map(({ rawC }) => rawC)))

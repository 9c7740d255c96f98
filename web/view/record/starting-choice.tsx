import { useState } from 'preact/hooks'
import { FIBRE_KINDS, type FibreKind } from '#core/plan/fibre'
import type { StartingPoint } from '#core/plan/starting-points'
import { startingPointsIn } from '#core/words/starting-points-in'
import { Choice } from '../part/choice.tsx'
import { SelectField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'

/** Where a new plan begins: the goods, then a dye on them; all of it common practice and the dyer's to change. */
export function StartingChoice(props: { readonly from: string; readonly onFrom: (id: string) => void }) {
  const { w, f } = useWords()
  const [fibre, setFibre] = useState<FibreKind>('wool')
  const { starting } = w.record
  const points = startingPointsIn(f.person.language).filter((point) => point.fibre === fibre)
  const chosen = points.find((point) => point.id === props.from)
  return (
    <section class="panel form">
      <Choice
        label={starting.fibre}
        value={fibre}
        options={FIBRE_KINDS.map((kind) => [kind, starting.fibres[kind]] as const)}
        onValue={(kind) => {
          setFibre(kind)
          props.onFrom('')
        }}
      />
      <SelectField
        label={starting.dye}
        help={starting.help}
        value={chosen?.id ?? ''}
        options={[['', starting.empty], ...points.map((point) => [point.id, point.title] as const)]}
        onValue={props.onFrom}
      />
      {chosen !== undefined && <Windows point={chosen} />}
    </section>
  )
}

/** What the baths of a starting point are kept at, before it is opened. */
function Windows({ point }: { readonly point: StartingPoint }) {
  const { w, f } = useWords()
  return (
    <dl class="line-fields">
      {point.plan.stages.flatMap((stage) =>
        'windowC' in stage
          ? [
              <div key={stage.id}>
                <dt>{stage.title}</dt>
                <dd>
                  {stage.ceilingC === undefined
                    ? f.range(stage.windowC[0], stage.windowC[1])
                    : w.record.starting.window(
                        f.range(stage.windowC[0], stage.windowC[1]),
                        f.temp(stage.ceilingC),
                      )}
                </dd>
              </div>,
            ]
          : [],
      )}
    </dl>
  )
}

import type { BurnerPage } from '#core/wire/burner'
import { type WhatIfDraft, whatIfRanges } from '../../state/what-if-draft.ts'
import { Choice } from '../part/choice.tsx'
import { Slider } from '../part/slider.tsx'
import { useWords } from '../page-context.ts'

export function WhatIfSliders(props: {
  readonly page: BurnerPage
  readonly draft: WhatIfDraft
  readonly onDraft: (draft: WhatIfDraft) => void
}) {
  const { w, f } = useWords()
  const { draft } = props
  const { vessel } = props.page.pot
  const ranges = whatIfRanges(vessel)
  const slider = (name: keyof typeof ranges, label: string, text: string) => ({
    label,
    text,
    value: draft[name],
    range: ranges[name],
    onValue: (value: number) => props.onDraft({ ...draft, [name]: value }),
  })
  const dialText =
    draft.dial === 0 ? w.heat.dialOff : w.heat.dialAt(f.amount(draft.dial), f.amount(vessel.burner.dialMax))
  return (
    <>
      <Slider {...slider('dial', w.heat.dial, dialText)} />
      <Slider {...slider('litres', w.heat.litres, w.heat.litresOf(f.amount(draft.litres)))} />
      <Slider {...slider('startC', w.heat.start, f.temp(draft.startC))} />
      <Slider {...slider('surroundingsC', w.heat.surroundings, f.temp(draft.surroundingsC))} />
      <Slider {...slider('hours', w.heat.hours, w.heat.hoursOf(f.amount(draft.hours)))} />
      <Choice
        label={w.heat.lid}
        value={draft.lid}
        options={[
          ['on', w.heat.lidOn],
          ['off', w.heat.lidOff],
        ]}
        onValue={(lid) => props.onDraft({ ...draft, lid })}
      />
    </>
  )
}

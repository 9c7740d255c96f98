import { useEffect, useMemo, useState } from 'preact/hooks'
import type { BurnerPage, WhatIfAnswer } from '#core/wire/burner'
import type { PlanRecord } from '#core/wire/records'
import type { Asked } from '../../state/requests.ts'
import {
  firstDraft,
  goalOf,
  type StageChoice,
  stageChoices,
  type WhatIfDraft,
  type WhatIfGoal,
} from '../../state/what-if-draft.ts'
import { SelectField } from '../part/field.tsx'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { CurveChart } from './curve-chart.tsx'
import type { CurvePicture } from './curve-picture.ts'
import { MixingPanel } from './mixing-panel.tsx'
import { NeedsVessel } from './needs-vessel.tsx'
import { PotPagesNav } from './pot-pages-nav.tsx'
import { WhatIfSliders } from './what-if-sliders.tsx'
import { whatIfLines } from './what-if-lines.ts'

/** Sliders, and the course that the bath would take, drawn over a plan's window and ceiling. */
export function WhatIfPage({ potId }: { readonly potId: string }) {
  const burner = useAnswer<BurnerPage>(`/api/pots/${encodeURIComponent(potId)}/burner`)
  const plans = useAnswer<readonly PlanRecord[]>('/api/plans')
  const { w } = useWords()
  const isConnected = usePage().state.stove.value.pots !== null
  if (burner.asked?.ok === false && burner.asked.status === 409) return <NeedsVessel />
  // The sliders begin where the pot stands now.
  if (!isConnected) return <p class="hint">{w.stove.connecting}</p>
  return (
    <Show of={burner}>
      {(page) => <Show of={plans}>{(all) => <WhatIf page={page} choices={stageChoices(all)} />}</Show>}
    </Show>
  )
}

const RUNNING = 'running'

function WhatIf({ page, choices }: { readonly page: BurnerPage; readonly choices: readonly StageChoice[] }) {
  const { w } = useWords()
  const { state } = usePage()
  const { pot } = page
  const live = state.stove.value.pots?.find((p) => p.potId === pot.id) ?? null
  const running = live?.stage === null || live === null ? null : goalOf(live.stage)
  const [draft, setDraft] = useState<WhatIfDraft>(() => firstDraft(pot.vessel, page.roomC, live))
  const [stage, setStage] = useState(() => (running === null ? (choices[0]?.key ?? '') : RUNNING))
  const goal = stage === RUNNING ? running : (choices.find((c) => c.key === stage)?.goal ?? null)
  const answer = useWhatIf(pot.id, draft, goal)
  return (
    <div class="wide heat">
      <header class="page-head">
        <h1>{w.heat.whatIfTitle(pot.title)}</h1>
        <PotPagesNav potId={pot.id} title={pot.title} here="what-if" />
      </header>
      <p>{w.heat.whatIfHelp}</p>
      <div class="what-if">
        <section class="panel">
          <WhatIfSliders page={page} draft={draft} onDraft={setDraft} />
          <SelectField
            label={w.heat.planStage}
            value={stage}
            options={[
              ...(running === null ? [] : [[RUNNING, live!.stage!.title] as const]),
              ...choices.map((c) => [c.key, w.heat.stageOf(c.planTitle, c.stageTitle)] as const),
              ['', w.heat.noStage] as const,
            ]}
            onValue={setStage}
          />
        </section>
        <section class="panel">
          <WhatIfCurve answer={answer} draft={draft} goal={goal} />
        </section>
      </div>
      <MixingPanel page={page} bathC={live?.tempC ?? null} />
      <p class="caution">
        {w.heat.never} {w.stove.advice} {w.stove.hot}
      </p>
    </div>
  )
}

/** So long a slider must rest before the server is asked, ms. */
const REST_MS = 120

/** The last answer stays until the next one is here, so that the curve does not flicker. */
function useWhatIf(potId: string, draft: WhatIfDraft, goal: WhatIfGoal | null): Asked<WhatIfAnswer> | null {
  const { requests } = usePage()
  const [asked, setAsked] = useState<Asked<WhatIfAnswer> | null>(null)
  const ask = JSON.stringify({ ...draft, ...(goal === null ? {} : { stage: goal }) })
  useEffect(() => {
    let wanted = true
    const askNow = async () => {
      const path = `/api/pots/${encodeURIComponent(potId)}/what-if`
      const found = await requests.ask<WhatIfAnswer>('POST', path, JSON.parse(ask))
      if (wanted) setAsked(found)
    }
    const timer = setTimeout(() => void askNow(), REST_MS)
    return () => {
      wanted = false
      clearTimeout(timer)
    }
  }, [potId, ask])
  return asked
}

function WhatIfCurve(props: {
  readonly answer: Asked<WhatIfAnswer> | null
  readonly draft: WhatIfDraft
  readonly goal: WhatIfGoal | null
}) {
  const { w, f } = useWords()
  const { answer, draft, goal } = props
  const value = answer?.ok === true ? answer.value : null
  const picture = useMemo(() => pictureOf(value, draft.hours, goal, w.heat), [value, JSON.stringify(goal), w])
  const lines = value === null ? [] : whatIfLines(value, draft, goal, w.heat, f)
  return (
    <>
      <h2>{w.heat.curve}</h2>
      <CurveChart picture={picture} label={`${w.heat.curve}. ${lines.join(' ')}`} />
      {answer?.ok === false && <p class="problem">{w.shell.failed(answer.why)}</p>}
      <h3>{w.heat.result}</h3>
      <ul class="next" aria-live="polite">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  )
}

function pictureOf(
  value: WhatIfAnswer | null,
  hours: number,
  goal: WhatIfGoal | null,
  words: { readonly curve: string; readonly afterAxis: string },
): CurvePicture {
  const points = (value?.path ?? []).map(([s, t, low, high]) => [s / 3600, t, low, high] as const)
  return {
    curves: [{ name: words.curve, isDashed: false, points }],
    xTitle: words.afterAxis,
    xMax: points.at(-1)?.[0] ?? hours,
    windowC: goal?.windowC ?? null,
    ceilingC: goal?.ceilingC ?? null,
    goalC: goal?.coolToC ?? null,
  }
}

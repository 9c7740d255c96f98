import { useState } from 'preact/hooks'
import type { Plan } from '#core/plan/plan'
import type { BatchRecord, PlanRecord, PotRecord } from '#core/wire/records'
import type { Asked } from '../../state/requests.ts'
import { typedWeight } from '../part/weight-field.tsx'
import { usePage, useWords } from '../page-context.ts'

/** As typed. */
export interface StartDraft {
  readonly planId: string
  readonly title: string
  readonly weight: string
  readonly potId: string
  readonly stageId: string
}

/** A batch while it is being started. */
export interface Start {
  readonly draft: StartDraft
  readonly change: (part: Partial<StartDraft>) => void
  readonly plan: Plan | null
  readonly pot: PotRecord | null
  readonly dryWeightG: number | null
  readonly isWeightWrong: boolean
  /** The stage it begins with; empty without a plan. */
  readonly stageId: string
  /** Somebody pressed a button: from now on what is missing is told. */
  readonly tried: boolean
  /** Plan, name and pot are there. */
  readonly isWhole: boolean
  readonly refusal: string | null
  readonly start: () => Promise<void>
  readonly weighFirst: () => Promise<void>
}

const EMPTY: StartDraft = { planId: '', title: '', weight: '', potId: '', stageId: '' }

export function useStart(
  plans: readonly PlanRecord[],
  pots: readonly PotRecord[],
  planId: number | null,
): Start {
  const { f } = useWords()
  const { state } = usePage()
  const [draft, setDraft] = useState<StartDraft>({ ...EMPTY, planId: String(planId ?? '') })
  const [tried, setTried] = useState(false)
  const [refusal, setRefusal] = useState<string | null>(null)
  const record = plans.find((p) => String(p.id) === draft.planId) ?? null
  const stages = record?.plan.stages ?? []
  const { weightG: dryWeightG, isWrong: isWeightWrong } = typedWeight(draft.weight, f)
  const pot = pots.find((p) => p.id === draft.potId) ?? null
  const stageId = stages.find((s) => s.id === draft.stageId)?.id ?? stages[0]?.id ?? ''
  const isNamed = record !== null && draft.title.trim() !== '' && !isWeightWrong
  const { make, begin } = useMaking()

  const made = async (then: (batch: BatchRecord) => Promise<void> | void) => {
    const answer = await make({
      title: draft.title.trim(),
      planId: record?.id,
      dryWeightG,
    })
    if (answer.ok) await then(answer.value)
    else setRefusal(answer.why)
  }
  async function weighFirst(): Promise<void> {
    setTried(true)
    if (isNamed) await made(({ id }) => void (location.hash = `#/weigh/${id}`))
  }
  async function start(): Promise<void> {
    setTried(true)
    if (!isNamed || pot === null) return
    await made(async ({ id }) => {
      const begun = await begin(id, stageId, pot.id)
      location.hash = begun.ok ? `#/pots/${encodeURIComponent(pot.id)}` : `#/begin/${id}`
      if (!begun.ok) state.refusal.value = begun.why
    })
  }
  return {
    draft,
    change: (part) => setDraft({ ...draft, ...part }),
    plan: record?.plan ?? null,
    pot,
    dryWeightG,
    isWeightWrong,
    stageId,
    tried,
    isWhole: isNamed && pot !== null,
    refusal,
    start,
    weighFirst,
  }
}

function useMaking() {
  const { requests, state } = usePage()
  return {
    make: (batch: object): Promise<Asked<BatchRecord>> => requests.ask('POST', '/api/batches', batch),
    begin: (batchId: number, stageId: string, potId: string): Promise<Asked<unknown>> => {
      const { who } = state.settings.peek()
      const path = `/api/batches/${batchId}/stages/${encodeURIComponent(stageId)}/start`
      return requests.ask('POST', path, { potId, who: who === '' ? null : who })
    },
  }
}

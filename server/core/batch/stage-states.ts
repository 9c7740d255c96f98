/** `left-out`: a later stage has run, this one never; it isn't asked for again. */
export type StageState = 'left-out' | 'to-come' | 'running' | 'done'

/** How far each stage of a plan has come, in the plan's order. A stage may have run several times. */
export function stageStates(
  stageIds: readonly string[],
  runs: readonly { readonly stageId: string; readonly endedMs: number | null }[],
): readonly StageState[] {
  const found = stageIds.map((id) => ownState(runs.filter((run) => run.stageId === id)))
  const last = found.findLastIndex((state) => state !== 'to-come')
  return found.map((state, i) => (state === 'to-come' && i < last ? 'left-out' : state))
}

function ownState(runs: readonly { readonly endedMs: number | null }[]): StageState {
  if (runs.some((run) => run.endedMs === null)) return 'running'
  return runs.length > 0 ? 'done' : 'to-come'
}

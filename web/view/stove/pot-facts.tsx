import type { PotLive } from '#core/wire/live'
import { usePage, useWords } from '../page-context.ts'
import { nextLines } from './next-lines.ts'

/** The stage and its batch in one line. */
export function StageLine({ pot }: { readonly pot: PotLive }) {
  const { w } = useWords()
  if (pot.stage === null) return <p class="stage-line">{pot.batch?.title ?? w.stove.noStage}</p>
  const no = pot.stages.findIndex((s) => s.id === pot.stage?.id) + 1
  return (
    <p class="stage-line">
      {no > 0 ? w.stove.stageNo(no, pot.stages.length, pot.stage.title) : pot.stage.title}
      {pot.batch !== null && <span class="batch-name"> · {pot.batch.title}</span>}
    </p>
  )
}

/** What comes next, the nearest first. */
export function NextList({ pot, most }: { readonly pot: PotLive; readonly most: number }) {
  const { w, f } = useWords()
  const lines = nextLines(pot, usePage().state.nowMs.value, w, f).slice(0, most)
  if (lines.length === 0) return null
  return (
    <ul class="next" aria-label={w.stove.next}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  )
}

/** What was last noted: only noted, never known. */
export function NotedLine({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  const parts = [
    pot.goodsIn && pot.stage !== null ? w.stove.goodsIn : null,
    pot.dial === null ? null : pot.dial === 0 ? w.stove.dialOff : w.stove.dial(f.dial(pot.dial)),
    pot.lid === null ? null : pot.lid === 'on' ? w.stove.lidOn : w.stove.lidOff,
  ].filter((part) => part !== null)
  return parts.length === 0 ? null : <p class="noted-line">{parts.join(' · ')}</p>
}

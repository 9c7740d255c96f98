import { type Checklist, checklist } from '#core/batch/checklist'
import type { BatchRecord } from '#core/wire/records'
import { ActButtons } from '../stove/act-buttons.tsx'
import { usePage, useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'
import { NoteButtons } from './note-buttons.tsx'

/** A running batch at a glance: what now, how long yet, what next, and the buttons for wet hands. */
export function NowPanel({ batch, again }: { readonly batch: BatchRecord; readonly again: () => void }) {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  const nowMs = state.nowMs.value
  const pots = state.stove.value.pots ?? []
  const pot = pots.find((one) => one.batch?.id === (batch.bathOf ?? batch.id)) ?? null
  const list = checklist({
    plan: batch.plan,
    runs: batch.stages.map((run) => ({ ...run, bins: run.outcome?.bins ?? null })),
    events: batch.events.filter((event) => (event.struckMs ?? null) === null),
    nowMs,
    coolsToMs: pot?.forecast?.reachesCoolToMs ?? null,
  })
  const { next } = list
  return (
    <section class="panel now" aria-label={w.record.now.title}>
      <h2 class="now-task">{w.record.now.tasks[list.task](list.stage?.title ?? '')}</h2>
      <ul class="now-lines">
        {nowLines(list, nowMs, w, f).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {pot !== null && <ActButtons pot={pot} />}
      <NoteButtons
        batchId={batch.id}
        stages={batch.plan.stages}
        stageId={list.stage?.id ?? null}
        onNoted={again}
      />
      <div class="buttons">
        {pot !== null && next !== null && (
          <button
            type="button"
            class="button big"
            onClick={() =>
              void acts
                .note({ potId: pot.potId, batchId: batch.id }, { kind: 'stage', stageId: next.id }, 0)
                .then(again)
            }
          >
            {w.record.now.startNext(next.title)}
          </button>
        )}
        <a class="button quiet" href={`#/begin/${batch.id}`}>
          {w.record.now.otherPot}
        </a>
      </div>
    </section>
  )
}

function nowLines(list: Checklist, nowMs: number, w: Catalogue, f: Format): readonly string[] {
  const { now } = w.record
  const { untilMs, turnDueMs, outByMs, next } = list
  const until =
    untilMs === null
      ? []
      : [
          untilMs <= nowMs
            ? now.over(f.when(untilMs, nowMs))
            : now.until(f.when(untilMs, nowMs), f.span(untilMs - nowMs)),
        ]
  const turn =
    turnDueMs === null ? [] : [turnDueMs <= nowMs ? now.turnNow : now.turn(f.span(turnDueMs - nowMs))]
  const outBy = outByMs === null ? [] : [now.outBy(f.when(outByMs, nowMs))]
  return [...until, ...turn, ...outBy, ...(next === null ? [] : [now.next(next.title)])]
}

import type { Stage } from '#core/plan/plan'
import type { StageRun } from '#core/wire/records'
import { ceilingOf, windowOf } from '../../state/bath-standing.ts'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** Planned beside actual; what was not planned or not measured stays a dash. */
export function StageTable({ stage, run }: { readonly stage: Stage; readonly run: StageRun | null }) {
  const { w, f } = useWords()
  return (
    <ScrollTable label={w.batch.tableOf(stage.title)} look="plain">
      <thead>
        <tr>
          <td />
          <th scope="col">{w.batch.planned}</th>
          <th scope="col">{w.batch.actual}</th>
        </tr>
      </thead>
      <tbody>
        {rowsOf(stage, run, w, f).map(([name, planned, actual]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{planned ?? '–'}</td>
            <td>{actual ?? '–'}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  )
}

type Row = readonly [name: string, planned: string | null, actual: string | null]

function rowsOf(stage: Stage, run: StageRun | null, w: Catalogue, f: Format): readonly Row[] {
  return [...timeRows(stage, run, w, f), ...tempRows(stage, run, w, f)].filter(
    ([, planned, actual]) => planned !== null || actual !== null,
  )
}

function timeRows(stage: Stage, run: StageRun | null, w: Catalogue, f: Format): readonly Row[] {
  const minutes = stage.kind === 'hold' ? null : 'minutes' in stage ? (stage.minutes ?? null) : null
  const length =
    run === null ? null : run.endedMs === null ? w.batch.running : f.span(run.endedMs - run.startedMs)
  const bins = run?.outcome?.bins ?? null
  return [
    [w.batch.began, null, run === null ? null : f.day(run.startedMs)],
    [w.batch.ended, null, run === null || run.endedMs === null ? null : f.day(run.endedMs)],
    [w.batch.lengthRow, minutes === null ? null : f.span(minutes * 60_000), length],
    stage.kind === 'hold'
      ? [
          w.batch.holdRow,
          f.minutes(stage.holdMin * 60),
          bins === null ? null : w.batch.inWindow(f.nearMinutes(bins.inWindowS)),
        ]
      : [w.batch.holdRow, null, null],
  ]
}

function tempRows(stage: Stage, run: StageRun | null, w: Catalogue, f: Format): readonly Row[] {
  const window = windowOf(stage)
  const ceilingC = ceilingOf(stage)
  const { minC = null, maxC = null, doneMs = null } = run?.outcome ?? {}
  const rate = 'maxHeatingCPerMin' in stage ? stage.maxHeatingCPerMin : undefined
  return [
    [
      window === null ? w.batch.lowHighRow : w.batch.windowRow,
      window === null ? null : f.range(window[0], window[1]),
      stage.kind === 'rest' || minC === null || maxC === null
        ? null
        : w.batch.lowHigh(f.temp(minC), f.temp(maxC)),
    ],
    [
      w.batch.ceilingRow,
      ceilingC === null ? null : f.temp(ceilingC),
      ceilingC === null || maxC === null ? null : w.batch.highest(f.temp(maxC)),
    ],
    [w.batch.rateRow, rate === undefined ? null : f.pace(rate), null],
    stage.kind === 'cool'
      ? [w.batch.coolRow, f.temp(stage.coolToC), doneMs === null ? null : w.batch.reachedAt(f.day(doneMs))]
      : [w.batch.coolRow, null, null],
  ]
}

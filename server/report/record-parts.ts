import { weighedDifference } from '#core/batch/weighed'
import { hexOfLab } from '#core/batch/colour'
import type { Fastness, Result } from '#core/batch/record-line'
import { type Markup, html } from './html.ts'
import type { ReportBatch } from './report-batch.ts'
import { type Writing, facts, table } from './sheet-parts.ts'

export function goodsPart({ batch, record }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  const { goods } = record
  const dryG = goods.dryWeightG ?? batch.dryWeightG
  return facts([
    [words.what, goods.what],
    [words.fibre, goods.fibre ?? batch.fibre ?? undefined],
    [words.dryWeight, dryG === null ? undefined : f.weight(dryG)],
    [words.wetWeight, goods.wetWeightG === undefined ? undefined : f.weight(goods.wetWeightG)],
    [words.source, goods.source],
    [words.condition, goods.condition],
    [words.pieces, goods.pieces === undefined ? undefined : f.number(goods.pieces, 0)],
    [words.owner, goods.owner],
    [words.lot, goods.lot],
  ])
}

export function waterPart({ record }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  const { water } = record
  return facts([
    [words.source, water.source],
    [
      words.hardness,
      water.hardnessMgL === undefined ? undefined : `${f.number(water.hardnessMgL, 0)} mg/L CaCO₃`,
    ],
    [words.ph, water.ph === undefined ? undefined : f.number(water.ph)],
    [words.litres, water.litres === undefined ? undefined : f.volume(water.litres)],
  ])
}

export function preparationPart({ record }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  if (record.preparations.length === 0) return []
  return [
    html`<ul>
      ${record.preparations.map(({ body }) => {
        const of = body.batchId === undefined ? undefined : `${words.batch} ${body.batchId}`
        const when = body.doneMs === undefined ? undefined : f.date(body.doneMs)
        return html`<li>
          ${[body.what, body.lot, of, when].filter((part) => part !== undefined).join(', ')}
        </li>`
      })}
    </ul>`,
  ]
}

/** Planned beside weighed; what is over 5 % off is marked with a sign, not with a colour. */
export function weighingPart({ batch, record }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  const rows = record.weighings.map(({ body }) => {
    const stage = batch.plan.stages.find((s) => s.id === body.stageId)?.title ?? body.stageId
    const off = body.plannedG === undefined ? null : weighedDifference(body.plannedG, body.weighedG)
    const percent = off === null || off.percent === null ? '' : f.percent(off.percent)
    return [
      stage,
      body.additive,
      body.lot ?? '',
      body.plannedG === undefined ? '' : f.weight(body.plannedG),
      f.weight(body.weighedG),
      off?.isOff === true ? html`<span class="off">${percent}</span>` : percent,
    ]
  })
  return table(
    [
      { title: words.stage },
      { title: words.additive },
      { title: words.lot },
      { title: words.planned, isNumber: true },
      { title: words.weighed, isNumber: true },
      { title: words.difference, isNumber: true },
    ],
    rows,
  )
}

export function phPart({ record }: ReportBatch, { f, words }: Writing): readonly Markup[] {
  const phs = record.phs.map((line) => `${f.time(line.atMs)} ${words.ph} ${f.number(line.body.ph, 2)}`)
  const checks = record.checks.map(
    (line) =>
      `${f.time(line.atMs)} ${words.checks}: ${words.places[line.body.place]} ${f.temp(line.body.tempC)}`,
  )
  const all = [...phs, ...checks]
  return all.length === 0
    ? []
    : [
        html`<ul>
          ${all.map((text) => html`<li>${text}</li>`)}
        </ul>`,
      ]
}

export function resultPart(result: Result, { f, words }: Writing): readonly Markup[] {
  const { lab } = result
  const colour =
    lab === undefined
      ? []
      : [
          html`<p>
            <span class="colour" style="background:${hexOfLab(lab)}"></span> L* ${f.number(lab.lightness)} a*
            ${f.number(lab.a)} b* ${f.number(lab.b)}
          </p>`,
        ]
  const score = (value: number | undefined) =>
    value === undefined ? undefined : words.outOfFive(f.number(value, 0))
  const match = [
    result.match === undefined ? undefined : words.matches[result.match],
    score(result.matchScore),
  ]
  return [
    ...facts([
      [words.words, result.words],
      [words.match, match.filter((part) => part !== undefined).join(', ')],
      [words.evenness, score(result.evenness)],
      [words.handle, score(result.handle)],
    ]),
    ...colour,
  ]
}

/** Every grade with where it was found; a home test never stands without saying what it isn't. */
export function fastnessPart(tests: readonly Fastness[], { words }: Writing): readonly Markup[] {
  if (tests.length === 0) return []
  const isHome = tests.some((test) => test.where === 'home')
  return [
    html`<ul>
      ${tests.map((test) => {
        const note = test.note === undefined ? '' : `; ${test.note}`
        return html`<li>${words.tests[test.test]}: ${test.grade} (${words[test.where]})${note}</li>`
      })}
    </ul>`,
    isHome ? html`<p class="small">${words.homeTest}</p>` : html``,
  ]
}

export function correctionsPart(report: ReportBatch, { f, words }: Writing): readonly Markup[] {
  if (report.corrections.length === 0) return []
  return [
    html`<ul class="small">
      ${report.corrections.map((c) => {
        const to = c.to === null ? words.takenBack : valueText(c.to, c.field, f.dateTime)
        const change = words.correctedFrom(valueText(c.from, c.field, f.dateTime), to)
        return html`<li>${f.dateTime(c.notedMs)} ${c.who ?? ''}: ${c.kind} ${c.field} ${change}</li>`
      })}
    </ul>`,
  ]
}

function valueText(value: unknown, field: string, dateTime: (atMs: number) => string): string {
  if (field.endsWith('Ms') && typeof value === 'number') return dateTime(value)
  return typeof value === 'string' ? value : (JSON.stringify(value) ?? '')
}

import { isDyeStage } from '#core/batch/additive-roles'
import { cautionsOfPlan } from '#core/plan/cautions'
import { html } from './html.ts'
import { page } from './page.ts'
import { onePhoto } from './photos-part.ts'
import type { PrintFor } from './print-for.ts'
import { weighingPart } from './record-parts.ts'
import type { ReportBatch, ReportStage } from './report-batch.ts'
import { head, section, table, writingFor } from './sheet-parts.ts'
import { planText, stageLine, stagePart } from './stage-part.ts'

/** One page a pot for a class: recipe, trace, what happened, a box for the swatch, the lines on safety. */
export function classPage(report: ReportBatch, reader: PrintFor, pupils: readonly string[]): string {
  const writing = writingFor(reader)
  const { f, words } = writing
  const { batch } = report
  const recipe = batch.plan.stages.map((stage) => [
    stage.title,
    planText(stage, writing),
    stage.additives
      .map((a) => `${a.name} ${'percentWof' in a ? f.percent(a.percentWof) : `${f.number(a.gPerL)} g/L`}`)
      .join(', '),
  ])
  const drawn = dyeStage(report)
  const cautions = cautionsOfPlan(batch.plan.stages, words.cautionTexts)
  const body = html`${head(words.classPage, batch.title, [f.date(batch.madeMs)], writing)}
    <main>
      ${pupils.length === 0 ? null : html`<p>${words.pupils}: ${pupils.join(', ')}</p>`}
      <div class="two">
        <div>
          ${section(
            `${words.plan}: ${batch.planTitle}`,
            table([{ title: words.stage }, { title: words.planned }, { title: words.additive }], recipe),
          )}
          ${section(words.weighing, weighingPart(report, writing))}
        </div>
        <div>
          <div class="swatch">${words.staple}</div>
          ${onePhoto(report, writing)}
        </div>
      </div>
      ${ranStages(report).map((ran) =>
        ran === drawn ? stagePart(ran, report, writing) : stageLine(ran, report, writing),
      )}
      ${section(words.cautions, [
        html`<ul class="small">
          ${cautions.map((c) => html`<li>${c}</li>`)}
        </ul>`,
      ])}
    </main>
    <footer>${words.safety}</footer>`
  return page(batch.title, reader, body, 'class')
}

const ranStages = ({ stages }: ReportBatch): readonly ReportStage[] =>
  stages.filter(({ trace }) => trace.length > 1)

/** The stage whose trace is drawn, so that a class page is one page: the last dye bath, else the last hold. */
function dyeStage(report: ReportBatch): ReportStage | undefined {
  const holds = ranStages(report).flatMap((ran) => {
    const stage = report.batch.plan.stages.find(({ id }) => id === ran.run.stageId)
    return stage?.kind === 'hold' ? [{ ran, stage }] : []
  })
  return (holds.findLast(({ stage }) => isDyeStage(stage)) ?? holds.at(-1))?.ran
}

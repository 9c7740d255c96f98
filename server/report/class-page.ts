import { dyeBathOf } from '#core/batch/dye-bath'
import { html } from './html.ts'
import { page } from './page.ts'
import { onePhoto } from './photos-part.ts'
import type { PrintFor } from './print-for.ts'
import { weighingPart } from './record-parts.ts'
import type { ReportBatch, ReportStage } from './report-batch.ts'
import { cautionsPart, head, section, table, writingFor } from './sheet-parts.ts'
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
  const drawn = drawnStage(report)
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
      ${cautionsPart(batch.plan.stages, writing)}
    </main>
    <footer>${words.safety}</footer>`
  return page(batch.title, reader, body, 'class')
}

const ranStages = ({ stages }: ReportBatch): readonly ReportStage[] =>
  stages.filter(({ trace }) => trace.length > 1)

/** The stage whose trace is drawn, so that a class page is one page. */
const drawnStage = (report: ReportBatch): ReportStage | undefined =>
  dyeBathOf(
    report.batch.plan,
    ranStages(report).map((ran) => ({ stageId: ran.run.stageId, ran })),
  )?.run.ran

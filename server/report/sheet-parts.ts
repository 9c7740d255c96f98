import { cautionsOfPlan } from '#core/plan/cautions'
import type { Stage } from '#core/plan/plan'
import { type Format, formatFor } from './format.ts'
import { type Markup, html } from './html.ts'
import type { PrintFor } from './print-for.ts'
import { wordsFor } from './words-for.ts'
import type { ReportWords } from './words/en.ts'

/** What every part of a report is written with. */
export interface Writing {
  readonly f: Format
  readonly words: ReportWords
  readonly reader: PrintFor
}

export const writingFor = (reader: PrintFor): Writing => ({
  f: formatFor(reader),
  words: wordsFor(reader.language),
  reader,
})

/** Head of a page: the studio and what it is on the left, number and dates on the right. */
export function head(kind: string, title: string, right: readonly string[], { reader }: Writing): Markup {
  const small = [reader.studio, kind].filter((part) => part !== '').join(' · ')
  return html`<header>
    <div>
      <div class="small">${small}</div>
      <h1>${title}</h1>
    </div>
    <p class="small">${right.map((line) => html`${line}<br />`)}</p>
  </header>`
}

/** A section that is left out when there is nothing to say in it. */
export function section(title: string, body: readonly Markup[]): Markup {
  return body.length === 0
    ? html``
    : html`<section>
        <h2>${title}</h2>
        ${body}
      </section>`
}

/** Names and values; those without a value are left out, and without any the list is too. */
export function facts(
  rows: readonly (readonly [name: string, value: string | undefined])[],
): readonly Markup[] {
  const known = rows.filter((row): row is readonly [string, string] => row[1] !== undefined && row[1] !== '')
  if (known.length === 0) return []
  return [
    html`<dl>
      ${known.map(
        ([name, value]) =>
          html`<dt>${name}</dt>
            <dd>${value}</dd>`,
      )}
    </dl>`,
  ]
}

export interface Column {
  readonly title: string
  readonly isNumber?: boolean
}

/** A table; none without rows. */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly (string | Markup)[])[],
): readonly Markup[] {
  if (rows.length === 0) return []
  const cls = (i: number) => (columns[i]?.isNumber === true ? 'number' : 'text')
  return [
    html`<table>
      <thead>
        <tr>
          ${columns.map((c, i) => html`<th class="${cls(i)}">${c.title}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) =>
            html`<tr>
              ${row.map((cell, i) => html`<td class="${cls(i)}">${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>`,
  ]
}

/** The cautions of a plan as a section; none where nothing in it asks for one. */
export function cautionsPart(stages: readonly Stage[], { words }: Writing): Markup {
  const all = cautionsOfPlan(stages, words.cautionTexts)
  const list = html`<ul class="small">
    ${all.map((caution) => html`<li>${caution}</li>`)}
  </ul>`
  return section(words.cautions, all.length === 0 ? [] : [list])
}

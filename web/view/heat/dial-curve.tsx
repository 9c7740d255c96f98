import { useMemo } from 'preact/hooks'
import type { BurnerPage, RangedAnswer } from '#core/wire/burner'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'
import type { Format } from '../words/format.ts'
import { CurveChart } from './curve-chart.tsx'
import type { Curve, CurvePicture } from './curve-picture.ts'

/** Where the bath settles at each mark of the dial, as a curve and as a table. */
export function DialCurve({ page }: { readonly page: BurnerPage }) {
  const { w, f } = useWords()
  const picture = useMemo(() => pictureOf(page, w.heat), [page, w])
  const temps = page.dials.map((d) => d.steadyLidOnC).filter((t) => t !== null)
  const [first, last] = [temps[0], temps.at(-1)]
  const label =
    first === undefined || last === undefined
      ? w.heat.dialTitle
      : w.heat.dialChart(f.temp(first.value), f.temp(last.value))
  return (
    <section class="panel">
      <h2>{w.heat.dialTitle}</h2>
      <p class="row-more">{w.heat.room(f.temp(page.roomC))}</p>
      <div class="heat-cols">
        <div class="stays">
          <CurveChart picture={picture} label={label} />
          <p class="legend">
            <span class="key-line">{w.heat.lidOn}</span> <span class="key-dash">{w.heat.lidOff}</span>
          </p>
        </div>
        <DialTable page={page} />
      </div>
    </section>
  )
}

function pictureOf(
  { dials, pot, roomC, boilingC }: BurnerPage,
  words: { readonly lidOn: string; readonly lidOff: string; readonly dialAxis: string },
): CurvePicture {
  const curve = (
    name: string,
    isDashed: boolean,
    of: (dial: BurnerPage['dials'][number]) => RangedAnswer | null,
  ): Curve => {
    const points = dials.map((d) => {
      const { value, low90, high90 } = of(d) ?? { value: boilingC, low90: boilingC, high90: boilingC }
      return [d.dial, value, low90, high90] as const
    })
    return { name, isDashed, points: [[0, roomC, roomC, roomC], ...points] }
  }
  return {
    curves: [
      curve(words.lidOn, false, (d) => d.steadyLidOnC),
      curve(words.lidOff, true, (d) => d.steadyLidOffC),
    ],
    xTitle: words.dialAxis,
    xMax: pot.vessel.burner.dialMax,
    windowC: null,
    ceilingC: null,
    goalC: null,
  }
}

function DialTable({ page }: { readonly page: BurnerPage }) {
  const { w, f } = useWords()
  const { columns } = w.heat
  return (
    <ScrollTable label={w.heat.dialTitle}>
      <thead>
        <tr>
          <th scope="col">{columns.dial}</th>
          <th scope="col">{columns.watts}</th>
          <th scope="col">{columns.on}</th>
          <th scope="col">{columns.off}</th>
        </tr>
      </thead>
      <tbody>
        {page.dials.map((d) => (
          <tr key={d.dial}>
            <th scope="row">
              {f.amount(d.dial, 2)} {!d.isKnown && <small class="tag-guess">{w.heat.guessMark}</small>}
            </th>
            <td>
              {w.heat.range(
                w.heat.watts(round(d.watts.value, f)),
                round(d.watts.low90, f),
                round(d.watts.high90, f),
              )}
            </td>
            <td>{steadyText(d.steadyLidOnC, w.heat, f)}</td>
            <td>{steadyText(d.steadyLidOffC, w.heat, f)}</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  )
}

/** Two figures: more would pretend. */
const round = (value: number, f: Format): string => f.amount(Number(value.toPrecision(2)))

function steadyText(
  steady: RangedAnswer | null,
  words: { readonly boils: string; range(value: string, low: string, high: string): string },
  f: Format,
): string {
  return steady === null
    ? words.boils
    : words.range(f.temp(steady.value), f.number(steady.low90), f.number(steady.high90))
}

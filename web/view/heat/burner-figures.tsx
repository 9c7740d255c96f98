import type { BurnerPage, RangedAnswer } from '#core/wire/burner'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'

/** Heat held and heat lost, with ranges. */
export function BurnerFigures({ page }: { readonly page: BurnerPage }) {
  const { w, f } = useWords()
  const { heat } = w
  const figure = (r: RangedAnswer, digits: number) => {
    const text = (value: number) => f.amount(Number(value.toPrecision(digits)), 1)
    return [text(r.value), text(r.low90), text(r.high90)] as const
  }
  const ranged = (r: RangedAnswer, unit: (value: string) => string, digits = 2) => {
    const [value, low, high] = figure(r, digits)
    return heat.range(unit(value), low, high)
  }
  return (
    <section class="panel">
      <h2>{heat.figures}</h2>
      <dl class="facts">
        <dt>{heat.capacity}</dt>
        <dd>{ranged(page.capacityKJPerC, heat.kilojoules, 3)}</dd>
        <dt>{heat.stored}</dt>
        <dd>
          {ranged(page.storedKJ, heat.kilojoules)}
          <small>{heat.storedMeans(f.drop(page.storedKJ.value / page.capacityKJPerC.value))}</small>
        </dd>
        <dt>{heat.late}</dt>
        <dd>{ranged(page.elementLagS, heat.seconds)}</dd>
      </dl>
      <ScrollTable label={heat.losses}>
        <caption>{heat.losses}</caption>
        <thead>
          <tr>
            <th scope="col">{heat.lossAt}</th>
            <th scope="col">{heat.lidOn}</th>
            <th scope="col">{heat.lidOff}</th>
          </tr>
        </thead>
        <tbody>
          {page.losses.map((loss) => (
            <tr key={loss.tempC}>
              <th scope="row">{f.temp(loss.tempC)}</th>
              <td>{ranged(loss.lidOnW, heat.watts)}</td>
              <td>{ranged(loss.lidOffW, heat.watts)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </section>
  )
}

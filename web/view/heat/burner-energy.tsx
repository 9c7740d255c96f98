import type { BatchEnergy } from '#core/wire/burner'
import { useWords } from '../page-context.ts'

/** What the burner took for the newest batches, and what that cost. */
export function BurnerEnergy({ energy }: { readonly energy: readonly BatchEnergy[] }) {
  const { w, f } = useWords()
  const columns = w.heat.energyColumns
  const hasPrice = energy.some((e) => e.cost !== null)
  return (
    <section class="panel">
      <h2>{w.heat.energy}</h2>
      <p class="row-more">{energy.length === 0 ? w.heat.noEnergy : w.heat.energyHelp}</p>
      {energy.length > 0 && (
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">{columns.batch}</th>
              <th scope="col">{columns.kWh}</th>
              {hasPrice && <th scope="col">{columns.cost}</th>}
            </tr>
          </thead>
          <tbody>
            {energy.map((e) => (
              <tr key={e.batchId}>
                <td>
                  <a href={`#/batches/${e.batchId}`}>{e.title}</a>
                </td>
                <td>{w.heat.kWh(f.amount(e.kWh, 2))}</td>
                {hasPrice && <td>{e.cost === null ? '–' : f.money(e.cost)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {energy.length > 0 && !hasPrice && <p class="row-more">{w.heat.noPrice}</p>}
    </section>
  )
}

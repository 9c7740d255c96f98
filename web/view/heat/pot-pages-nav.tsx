import { type Route, routeHref } from '../../state/route.ts'
import { useWords } from '../page-context.ts'

type PotPageKind = 'pot' | 'burner' | 'what-if' | 'evening'

/** The pages of one pot, beside each other. */
export function PotPagesNav(props: {
  readonly potId: string
  readonly title: string
  readonly here: PotPageKind
}) {
  const { w } = useWords()
  const names: Readonly<Record<PotPageKind, string>> = {
    pot: w.heat.toPot(props.title),
    burner: w.heat.toBurner,
    'what-if': w.heat.toWhatIf,
    evening: w.heat.toEvening,
  }
  const route = (kind: PotPageKind): Route => ({ kind, potId: props.potId })
  return (
    <nav class="pot-pages" aria-label={props.title}>
      {(Object.keys(names) as PotPageKind[])
        .filter((kind) => kind !== props.here)
        .map((kind) => (
          <a key={kind} class="button quiet" href={routeHref(route(kind))}>
            {names[kind]}
          </a>
        ))}
    </nav>
  )
}

import type { PotRecord } from '#core/wire/records'
import type { ProbeInfo } from '../../state/requests.ts'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'
import { CorrectProbe } from './correct-probe.tsx'
import { HangProbe } from './hang-probe.tsx'

/** Every probe with what it says, where it hangs and how far it may be trusted. */
export function ProbeList(props: {
  readonly probes: readonly ProbeInfo[]
  readonly pots: readonly PotRecord[]
  readonly onChange: () => void
}) {
  const { w } = useWords()
  if (props.probes.length === 0)
    return (
      <p>
        {w.probe.none} {w.probe.noneHelp}
      </p>
    )
  return (
    <ul class="probe-list">
      {props.probes.map((probe) => (
        <li key={probe.name}>
          <ProbeCard {...props} probe={probe} />
        </li>
      ))}
    </ul>
  )
}

function ProbeCard(props: {
  readonly probe: ProbeInfo
  readonly pots: readonly PotRecord[]
  readonly onChange: () => void
}) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const { probe } = props
  const good = probe.state === 'ok' || (probe.state === null && isYoung(probe))
  async function accept(): Promise<void> {
    const done = await requests.ask('POST', `/api/probes/${encodeURIComponent(probe.name)}/accept`, {})
    if (done.ok) props.onChange()
    else state.refusal.value = done.why
  }
  return (
    <article class={`probe-card ${good ? '' : 'silent'}`} aria-label={probe.title}>
      <header>
        <h3>{probe.title}</h3>
        <p class="probe-temp">{probe.tempC === null ? '– –' : f.temp(probe.tempC)}</p>
      </header>
      <p class={`standing standing-${good ? 'in-window' : 'stale'}`}>
        <Mark name={good ? 'done' : 'stale'} />
        <span>{probe.sentence === null ? stateText(probe, w, f) : w.said(probe.sentence)}</span>
      </p>
      <dl class="facts">
        {factsOf(probe, w, f).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {!probe.accepted && (
        <p>
          {w.probe.newOne}{' '}
          <button type="button" class="button" onClick={() => void accept()}>
            {w.probe.accept}
          </button>
        </p>
      )}
      <HangProbe probe={probe} pots={props.pots} onChange={props.onChange} />
      <a
        class="button quiet"
        href={`#/find/${encodeURIComponent(`probe:${probe.name}`)}`}
        aria-label={w.record.now.usedInOf(probe.title)}
      >
        {w.record.now.usedIn}
      </a>
      <CorrectProbe probe={probe} onChange={props.onChange} />
    </article>
  )
}

/** Where no bridge tells how a probe is doing, its age must do. */
const isYoung = (probe: ProbeInfo): boolean =>
  probe.ageMs !== null && probe.ageMs < 3 * (probe.periodMs ?? 5_000) + 1_000

function stateText(probe: ProbeInfo, w: Catalogue, f: Format): string {
  if (probe.ageMs === null) return w.probe.neverSent
  return isYoung(probe) ? w.probe.fresh : w.probe.stale(f.span(probe.ageMs))
}

function factsOf(probe: ProbeInfo, w: Catalogue, f: Format): readonly (readonly [string, string])[] {
  const facts: readonly (readonly [string, string | null])[] = [
    [w.probe.reading, probe.ageMs === null ? w.probe.never : w.probe.age(f.span(probe.ageMs))],
    [w.probe.place, probe.place === null ? null : w.said(probe.place)],
    [
      w.probe.correction,
      probe.correction === null
        ? w.probe.noCorrection
        : w.probe.correctionFrom(correctionText(probe.correction, w, f), f.date(probe.correction.fromMs)),
    ],
    [w.probe.rate, probe.rateCPerMin === null ? null : f.rate(probe.rateCPerMin)],
    [w.probe.noise, probe.noiseC === null ? null : `±${f.drop(probe.noiseC)}`],
    [w.probe.battery, probe.battery01 === null ? null : `${Math.round(probe.battery01 * 100)} %`],
    [w.probe.lag, probe.lagS === null ? null : `${f.amount(probe.lagS)} s`],
  ]
  return facts.filter((fact): fact is readonly [string, string] => fact[1] !== null)
}

function correctionText(
  { kind, offsetC }: NonNullable<ProbeInfo['correction']>,
  w: Catalogue,
  f: Format,
): string {
  switch (kind) {
    case 'offset':
      return `${(offsetC ?? 0) > 0 ? '+' : ''}${f.drop(offsetC ?? 0)}`
    case 'two-point':
      return w.probe.correctKinds['two-point']
    case 'line':
      return w.probe.correctionLine
    default:
      return kind satisfies never
  }
}

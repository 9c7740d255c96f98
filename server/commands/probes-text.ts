import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeAnswer } from '#core/wire/api-probes'
import { differenceF, fahrenheit } from '#core/measure/units'

export type Unit = 'C' | 'F'

/** The probes as a table for a terminal, one a line, with what a person should know below those in trouble. */
export function probesText(probes: readonly ProbeAnswer[], unit: Unit): string {
  if (probes.length === 0) return 'No probe is set and none was heard of. See docs/probes.md, or try --find.'
  const rows = probes.map((p) => [
    p.name,
    p.tempC === null ? '–' : reading(p.tempC, unit),
    p.ageMs === null ? '–' : duration(p.ageMs),
    p.periodMs === null ? '–' : duration(p.periodMs),
    p.rateCPerMin === null ? '–' : `${signed(difference(p.rateCPerMin, unit), 2)}/min`,
    p.noiseC === null ? '–' : difference(p.noiseC, unit).toFixed(2),
    p.state ?? (p.accepted ? '–' : 'new'),
    p.battery01 === null ? '–' : `${Math.round(p.battery01 * 100)} %`,
    p.lagS === null ? '–' : `${p.lagS} s`,
    correctionText(p),
    p.place ?? '–',
  ])
  const table = columns([HEAD(unit), ...rows])
  const troubles = probes.flatMap((p) =>
    p.sentence === null || p.state === 'ok' ? [] : [`${p.name}: ${p.sentence}`],
  )
  return [table, ...(troubles.length === 0 ? [] : ['', ...troubles])].join('\n')
}

const HEAD = (unit: Unit): readonly string[] => [
  'probe',
  'reading',
  'age',
  'every',
  'rate',
  `noise °${unit}`,
  'state',
  'battery',
  'lag',
  'correction',
  'hangs on',
]

/** What was found while a person warms a probe in the hand. */
export function candidatesText(
  found: readonly (Candidate & { readonly bridge: string })[],
  nowMs: number,
): string {
  if (found.length === 0)
    return 'Nothing yet. Plug the probe in, or let its board publish; broker topics need one MQTT probe set.'
  const rows = found.map((c) => [
    c.kind,
    c.where,
    c.lastText === null ? '–' : JSON.stringify(c.lastText.slice(0, 40)),
    c.lastAtMs === null ? '–' : duration(Math.max(0, nowMs - c.lastAtMs)),
    c.usedBy ?? '–',
    c.about === '' ? '–' : c.about.slice(0, 50),
    c.bridge,
  ])
  const troubles = found.flatMap((c) => (c.trouble === null ? [] : [`${c.where}: ${c.trouble}`]))
  const table = columns([['kind', 'where', 'says', 'age', 'probe', 'about', 'bridge'], ...rows])
  return [table, ...(troubles.length === 0 ? [] : ['', ...troubles])].join('\n')
}

const reading = (tempC: number, unit: Unit): string =>
  `${(unit === 'F' ? fahrenheit(tempC) : tempC).toFixed(1)} °${unit}`

const difference = (dropC: number, unit: Unit): number => (unit === 'F' ? differenceF(dropC) : dropC)

const signed = (value: number, digits: number): string =>
  `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`

function duration(ms: number): string {
  if (ms < 10_000) return `${(ms / 1000).toFixed(1)} s`
  if (ms < 120_000) return `${Math.round(ms / 1000)} s`
  return ms < 7_200_000 ? `${Math.round(ms / 60_000)} min` : `${Math.round(ms / 3_600_000)} h`
}

const correctionText = ({ correction }: ProbeAnswer): string =>
  correction === null
    ? 'none'
    : `${correction.text} since ${new Date(correction.fromMs).toISOString().slice(0, 10)}`

function columns(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)))
  return rows
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
}

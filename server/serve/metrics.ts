import type { Studio } from './studio.ts'

interface Metric {
  readonly name: string
  readonly type: 'counter' | 'gauge'
  readonly help: string
  readonly samples: readonly { readonly labels?: Readonly<Record<string, string>>; readonly value: number }[]
}

/** State of the program in the OpenMetrics 1.0 text format, with its `# EOF`. Times in seconds, as it wants them. */
export const metricsText = (studio: Studio, pages: number): string =>
  [...metrics(studio, pages).flatMap(lines), '# EOF', ''].join('\n')

const metrics = (studio: Studio, pages: number): readonly Metric[] => [
  ...intakeMetrics(studio),
  ...probeMetrics(studio),
  ...watchMetrics(studio, pages),
  gauge('recording', '1 while readings are written.', studio.recorder.trouble === null ? 1 : 0),
  gauge('memory_bytes', 'Resident memory.', process.memoryUsage.rss()),
]

const intakeMetrics = ({ intake: { counts } }: Studio): readonly Metric[] => [
  counter('readings_stored', 'Readings committed.', counts.stored),
  counter('readings_duplicate', 'Readings sent again.', counts.duplicates),
  counter('readings_refused', 'Records refused.', counts.refused),
]

function probeMetrics({ probes, bridges, clock }: Studio): readonly Metric[] {
  const nowMs = clock.nowMs()
  const ages = probes.all().map(({ name, last }) => ({
    labels: { probe: name },
    value: Math.max(0, nowMs - last.reading.atMs) / 1000,
  }))
  const waiting = bridges
    .all()
    .map(({ state }) => ({ labels: { bridge: state.bridge }, value: state.outbox.waiting }))
  return [
    gauge('reading_age_seconds', 'Age of the newest reading of a probe.', ages),
    gauge('outbox_waiting', 'Readings that wait in a bridge.', waiting),
  ]
}

function watchMetrics({ watching, teller, clock, listeners }: Studio, pages: number): readonly Metric[] {
  const ageMs = Math.max(0, clock.nowMs() - watching.lastTickMs)
  return [
    gauge('watch_age_seconds', 'Time since the watch last went round.', ageMs / 1000),
    gauge('alarms_open', 'Alarms that are not over.', teller.open().length),
    gauge('pages', 'Pages connected.', pages),
    gauge('listeners', 'Devices that would sound an alarm.', listeners()),
  ]
}

const counter = (name: string, help: string, value: number): Metric => ({
  name: `holdfast_${name}`,
  type: 'counter',
  help,
  samples: [{ value }],
})

const gauge = (name: string, help: string, value: number | Metric['samples']): Metric => ({
  name: `holdfast_${name}`,
  type: 'gauge',
  help,
  samples: typeof value === 'number' ? [{ value }] : value,
})

function lines({ name, type, help, samples }: Metric): readonly string[] {
  const suffix = type === 'counter' ? '_total' : ''
  return [
    `# TYPE ${name} ${type}`,
    `# HELP ${name} ${help}`,
    ...samples.map(({ labels, value }) => `${name}${suffix}${labelText(labels)} ${value}`),
  ]
}

function labelText(labels: Readonly<Record<string, string>> | undefined): string {
  if (labels === undefined) return ''
  const quoted = Object.entries(labels).map(([key, text]) => `${key}="${escaped(text)}"`)
  return `{${quoted.join(',')}}`
}

const escaped = (text: string): string =>
  text
    .replaceAll('\\', String.raw`\\`)
    .replaceAll('"', String.raw`\"`)
    .replaceAll('\n', String.raw`\n`)

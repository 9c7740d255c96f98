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

function metrics(studio: Studio, pages: number): readonly Metric[] {
  const { counts } = studio.intake
  const nowMs = studio.clock.nowMs()
  return [
    {
      name: 'holdfast_readings_stored',
      type: 'counter',
      help: 'Readings committed.',
      samples: one(counts.stored),
    },
    {
      name: 'holdfast_readings_duplicate',
      type: 'counter',
      help: 'Readings sent again.',
      samples: one(counts.duplicates),
    },
    {
      name: 'holdfast_readings_refused',
      type: 'counter',
      help: 'Records refused.',
      samples: one(counts.refused),
    },
    {
      name: 'holdfast_reading_age_seconds',
      type: 'gauge',
      help: 'Age of the newest reading of a probe.',
      samples: studio.probes.all().map(({ name, last }) => ({
        labels: { probe: name },
        value: Math.max(0, nowMs - last.reading.atMs) / 1000,
      })),
    },
    {
      name: 'holdfast_outbox_waiting',
      type: 'gauge',
      help: 'Readings that wait in a bridge.',
      samples: studio.bridges
        .all()
        .map(({ state }) => ({ labels: { bridge: state.bridge }, value: state.outbox.waiting })),
    },
    {
      name: 'holdfast_watch_age_seconds',
      type: 'gauge',
      help: 'Time since the watch last went round.',
      samples: one(Math.max(0, nowMs - studio.watching.lastTickMs) / 1000),
    },
    {
      name: 'holdfast_alarms_open',
      type: 'gauge',
      help: 'Alarms that are not over.',
      samples: one(studio.teller.open().length),
    },
    { name: 'holdfast_pages', type: 'gauge', help: 'Pages connected.', samples: one(pages) },
    {
      name: 'holdfast_listeners',
      type: 'gauge',
      help: 'Devices that would sound an alarm.',
      samples: one(studio.listeners()),
    },
    {
      name: 'holdfast_recording',
      type: 'gauge',
      help: '1 while readings are written.',
      samples: one(studio.recorder.trouble === null ? 1 : 0),
    },
    {
      name: 'holdfast_memory_bytes',
      type: 'gauge',
      help: 'Resident memory.',
      samples: one(process.memoryUsage.rss()),
    },
  ]
}

const one = (value: number) => [{ value }]

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

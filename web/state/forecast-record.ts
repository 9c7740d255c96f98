import type { ForecastRecord } from '#core/wire/burner'

/** How good one kind of forecast has been. `off`: the middle one's error; minutes for times, °C for peaks. */
export interface RecordSummary {
  readonly kind: ForecastRecord['kind']
  readonly count: number
  readonly inside: number
  readonly off: number
}

const KINDS = ['window', 'peak', 'cool'] as const

/** Only forecasts that were made with something learned; the guesses before that say nothing of the learning. */
export function recordSummaries(record: readonly ForecastRecord[]): readonly RecordSummary[] {
  return KINDS.flatMap((kind) => {
    const some = record.filter((r) => r.kind === kind && !r.isGuess)
    if (some.length === 0) return []
    const off = some.map(errorOf).sort((a, b) => a - b)
    return [
      {
        kind,
        count: some.length,
        inside: some.filter(isInside).length,
        off: off[Math.floor(off.length / 2)]!,
      },
    ]
  })
}

export const isInside = ({ came, low90, high90 }: ForecastRecord): boolean => came >= low90 && came <= high90

/** Minutes for times, °C for peaks; never below 0. */
export const errorOf = ({ kind, told, came }: ForecastRecord): number =>
  Math.abs(told - came) / (kind === 'peak' ? 1 : 60_000)
